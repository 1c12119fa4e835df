"""Soils, mixes, and the sets of specimens cast from them, every specimen with what it says."""

from __future__ import annotations

from typing import Any

from compliance.checked import Checked
from compliance.documents import theme
from compliance.documents.figures import NOTHING, counted
from compliance.documents.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.sections import on_this_page, part, running_text, title
from compliance.documents.sheet import Sheet
from compliance.documents.specimens import specimen_sheet
from compliance.documents.words import Words
from compliance.model.materials import Mix, Soil, TestSet
from compliance.units import Measure, Writer

_INTRODUCTION = (
    "What the walls are made of, from the soil to the specimen. Values are those of the description and of the lab "
    "tables; what is computed from them is said to be."
)


def materials(checked: Checked) -> list[Any]:
    writer = Writer(checked.project.project.units)
    project = checked.project
    story = on_this_page()
    lead = title("materials", "Materials and tests", _INTRODUCTION)
    if project.soils:
        story.append(_soils(project.soils, writer, lead))
        lead = []
    if project.mixes:
        story.append(_mixes(project.mixes, writer, lead))
        lead = []
    if lead:
        story.append(running_text([*lead, full_row(Words("The project describes neither soil nor mix.", theme.BODY))]))
    story += [_set(checked, mark, test, writer) for mark, test in project.test_sets.items()]
    if not project.test_sets:
        words = Words("The project has no test records. Nothing here says how strong the walls are.", theme.BODY_BOLD)
        story.append(running_text([full_row(words, air=(6.0, 6.0))]))
    return story


def written(measure: Measure | None, kind: str, writer: Writer) -> str:
    return NOTHING if measure is None else writer.write(measure.si, kind)


def _soils(soils: dict[str, Soil], writer: Writer, lead: list[Row]) -> Sheet:
    rows = []
    for mark, soil in soils.items():
        name = [Words(soil.name, theme.CELL_BOLD)]
        name += [Words(text, theme.CELL_SMALL) for text in (soil.place, soil.description) if text]
        shares = [written(share, "share", writer) for share in (soil.clay, soil.silt, soil.sand, soil.gravel)]
        dug = soil.dug.isoformat() if soil.dug else NOTHING
        organic = NOTHING if soil.organic is None else "yes" if soil.organic else "no"
        plain = (soil.material.replace("-", " "), written(soil.depth, "length", writer), dug)
        rows.append(
            Row((cell(mark, theme.CELL_BOLD), Cell(tuple(name)), *map(cell, plain),
                 *(cell(share, theme.NUMBER) for share in shares), cell(organic, theme.NUMBER)))
        )  # fmt: skip
    head = head_row("Mark", "Soil or aggregate", "Material", "Depth", "Dug", "Clay", "Silt", "Sand", "Gravel",
                    "Organic", right=(5, 6, 7, 8, 9))  # fmt: skip
    columns = (
        Column(46),
        Column(share=1),
        Column(58),
        Column(42),
        Column(52),
        *(Column(36) for _ in range(4)),
        Column(40),
    )
    return Sheet(columns, rows, head=[head], lead=lead + part("soils", "Soils and aggregates"), below=12)


def _mixes(mixes: dict[str, Mix], writer: Writer, lead: list[Row]) -> Sheet:
    rows = []
    for mark, mix in mixes.items():
        parts = ", ".join(f"{mark} {amount:g}" for mark, amount in mix.parts.items())
        straw = mix.straw or NOTHING
        if mix.straw_parts:
            straw = f"{straw}, {mix.straw_parts:g} parts"
        stabilised = NOTHING if mix.stabilised is None else (mix.stabiliser or "yes") if mix.stabilised else "no"
        name = [Words(mix.name, theme.CELL_BOLD), *([Words(mix.note, theme.CELL_SMALL)] if mix.note else [])]
        rows.append(
            Row((cell(mark, theme.CELL_BOLD), Cell(tuple(name)), cell(parts), cell(straw), cell(stabilised),
                 cell(written(mix.dry_density, "density", writer), theme.NUMBER)))
        )  # fmt: skip
    head = head_row("Mark", "Mix", "Parts by volume", "Straw", "Stabilised", "Dry density", right=(5,))
    columns = (Column(natural=True), Column(share=2), Column(share=2), *(Column(natural=True) for _ in range(3)))
    return Sheet(columns, rows, head=[head], lead=lead + part("mixes", "Mixes"), below=12)


_KINDS = {"compression": "Compression", "rupture": "Modulus of rupture", "shrinkage": "Shrinkage"}


def _set(checked: Checked, mark: str, test: TestSet, writer: Writer) -> Sheet:
    specimens = checked.specimens.get(mark, ())
    name = f"{mark}  ·  {_KINDS[test.kind]}, mix {test.mix}" + (f": {test.title}" if test.title else "")
    report = checked.project.attachments.get(test.report or "")
    said = [
        ("made by", test.made_by),
        ("tested by", test.tested_by),
        ("capped with", test.capped),
        ("shown to the official on", test.shown_to_official.isoformat() if test.shown_to_official else None),
        ("report", report.title if report else None),
    ]
    sentence = "; ".join(f"{label} {value}" for label, value in said if value)
    lead = part(f"set-{mark}", name, f"{counted(len(specimens), 'specimen')}; {sentence}." if sentence else "")
    if test.note:
        lead.append(full_row(Words(test.note, theme.SMALL, after=3.0)))
    return specimen_sheet(checked, mark, test.kind, specimens, writer, lead)
