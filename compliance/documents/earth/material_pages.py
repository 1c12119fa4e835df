"""Soils, mixes, and the sets of specimens cast from them, every specimen with what it says."""

from __future__ import annotations

from typing import Any

from compliance.checked import Checked
from compliance.documents.earth.mix_record import mix_record
from compliance.documents.earth.specimen_table import specimen_sheet
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, part, running_text, title
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import full_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.plots.scatter_plots import scatter_sheets
from compliance.documents.plots.set_pages import plot_sheets
from compliance.documents.plots.set_plots import judged_of, plot_of
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.model.materials import TestSet
from compliance.report.by_rule import SetFindings
from compliance.report.revisions.revision_changes import Changes
from compliance.report.value_words import counted
from compliance.units import Writer

_INTRODUCTION = (
    "What the walls are made of, from the soil to the specimen. Values are those of the description and of the lab "
    "tables; what is computed from them is said to be."
)


def materials(
    checked: Checked, sets: tuple[SetFindings, ...], practice: MaterialPractice, since: Changes | None = None
) -> list[Any]:
    """`since` is what changed since the revision before."""
    writer = Writer(checked.project.project.units)
    lead = title("materials", "Materials and tests", _INTRODUCTION)
    record = mix_record(checked, practice, writer, lead, since=since)
    if not record:
        words = Words("The project describes neither soil nor mix.", theme.BODY)
        record = [running_text([*lead, full_row(words)])]
    story = [*on_this_page(), *record]
    for mark, test in checked.project.test_sets.items():
        story.append(_set(checked, mark, test, writer))
        judged = judged_of(checked, sets, mark)
        story += plot_sheets(checked, mark=mark, plot=plot_of(mark, checked, judged), judged=judged, writer=writer)
    story += scatter_sheets(checked, writer)
    if not checked.project.test_sets:
        words = Words("The project has no test records. Nothing here says how strong the walls are.", theme.BODY_BOLD)
        story.append(running_text([full_row(words, air=(6.0, 6.0))]))
    return story


_KINDS = {"compression": "Compression", "rupture": "Modulus of rupture", "shrinkage": "Shrinkage"}


def _set(checked: Checked, mark: str, test: TestSet, writer: Writer) -> Sheet:
    specimens = checked.specimens.get(mark, ())
    name = f"{mark}  ·  {_KINDS[test.kind]}, mix {test.mix}" + (f": {test.title}" if test.title else "")
    report = checked.project.attachments.get(test.report or "")
    phrases = [
        ("made by", test.made_by),
        ("tested by", test.tested_by),
        ("capped with", test.capped),
        ("shown to the official on", test.shown_to_official.isoformat() if test.shown_to_official else None),
        ("report", report.title if report else None),
    ]
    sentence = "; ".join(f"{label} {value}" for label, value in phrases if value)
    lead = part(f"set-{mark}", name, f"{counted(len(specimens), 'specimen')}; {sentence}." if sentence else "")
    if test.note:
        lead.append(full_row(Words(test.note, theme.SMALL, after=3.0)))
    return specimen_sheet(checked, mark=mark, kind=test.kind, specimens=specimens, writer=writer, lead=lead)
