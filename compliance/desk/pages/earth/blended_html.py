"""The pages of one trial brick and of one mix: their parts and all else that is recorded, and what follows."""

from __future__ import annotations

from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.earth.described_forms import parts_rows, ready_form, record_form
from compliance.desk.pages.earth.soil_html import EARTH, earth_path
from compliance.desk.pages.frame import listed, page, problems_box, section, subject_path
from compliance.facts.common.fact import FieldPath
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.blend_text import blend_text
from compliance.output.terminal.problem_text import ReadLines
from compliance.remedies.edited_project import written_plainly
from compliance.report.earth.casting_words import set_line
from compliance.report.earth.mix_blends import blend_of_mix, first_that_fits
from compliance.report.earth.trial_words import in_parts, trial_lines
from compliance.units import Writer

_WIDE = 96
CHANGED = (
    "A changed proportion is another mix and is tested again: change it here only to correct a slip, else add a mix."
)

ORDERING = "For all mixes. What is left empty is counted as is common practice."


def trial_brick_page(snapshot: Snapshot, mark: str, read_lines: ReadLines) -> bytes:
    """The brick is one of the project."""
    checked = snapshot.checked
    assert checked is not None
    trial, back = checked.project.trials[mark], earth_path("trials", mark)
    children: list[Child] = [
        problems_box(snapshot, read_lines),
        tag("h1", f"Trial brick {mark}"),
        tag("p", trial_lines(checked)[mark].head, class_="sentence"),
        *(tag("p", text, class_="small") for text in checked.evidence.ranking.remarks),
    ]
    if not snapshot.problems:
        rows = parts_rows(("trials", mark), trial.parts, snapshot)
        children.append(
            section("What is recorded", record_form(("trials", mark), trial, snapshot=snapshot, back=back, more=rows))
        )
        fields: list[tuple[FieldPath, str]] = [(("name",), f"Mix of brick {mark}"), (("trial",), mark)]
        fields += [(("parts", soil), written_plainly(part)) for soil, part in trial.parts.items()]
        fields += [
            ((name,), written_plainly(value)) for name in ("straw", "straw_parts") if (value := getattr(trial, name))
        ]
        children.append(
            section(
                "Go on with it", ready_form("mixes", fields, "Add a mix of these parts", snapshot=snapshot, back=EARTH)
            )
        )
    return page(f"Trial brick {mark}", snapshot, *children, _back())


def mix_page(snapshot: Snapshot, mark: str, read_lines: ReadLines) -> bytes:
    """The mix is one of the project."""
    checked = snapshot.checked
    assert checked is not None
    mix, back = checked.project.mixes[mark], earth_path("mixes", mark)
    text = blend_text(
        first_that_fits(blend_of_mix(checked, mark)), checked.project, Writer(checked.project.project.units), _WIDE
    )
    sets = [name for name, test in checked.project.test_sets.items() if test.mix == mark]
    walls = [name for name, wall in checked.project.walls.items() if wall.mix == mark]
    children: list[Child] = [
        problems_box(snapshot, read_lines),
        tag("h1", f"Mix {mark}: {mix.name}"),
        tag("p", in_parts(mix.parts), class_="sentence"),
        section("Buckets, and the mix aimed for", tag("pre", text, tabindex="0")),
        section("Sets of specimens", listed(set_line(checked, name) for name in sets)) if sets else None,
        section("Walls of this mix", _walls(walls)) if walls else None,
    ]
    if not snapshot.problems:
        rows = parts_rows(("mixes", mark), mix.parts, snapshot)
        form = record_form(("mixes", mark), mix, snapshot=snapshot, back=back, more=rows)
        children.append(section("What is recorded", tag("p", CHANGED, class_="small"), form))
        counted_with = record_form(("ordering",), checked.project.ordering, snapshot=snapshot, back=back)
        children.append(section("What quantities are counted with", tag("p", ORDERING, class_="small"), counted_with))
    return page(f"Mix {mark}", snapshot, *children, _back())


def _walls(marks: list[str]) -> Markup:
    return tag(
        "p", joined(part for mark in marks for part in (tag("a", mark, href=subject_path(mark)), " ")), class_="links"
    )


def _back() -> Markup:
    return tag("p", tag("a", "All of the earth", href=EARTH, class_="button"))
