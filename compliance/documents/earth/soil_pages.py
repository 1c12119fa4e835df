"""Soils as printed: where from, their shares and what these rest on, the texture triangle, hand tests, gradings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.page.line_breaking import Part, Words, Worked
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.plots.jar_times import jar_sheets
from compliance.documents.plots.texture_triangle import plotted
from compliance.documents.plots.triangle_drawing import TriangleFigure, legend
from compliance.facts.soil.field_tests import FieldReading
from compliance.facts.soil.fractions import SoilShares
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.facts.soil.soil_record import SoilRecord
from compliance.model.materials import Soil
from compliance.record import replace
from compliance.report.value_words import NOTHING
from compliance.units import Measure, Writer

_ORIGINS = {"grading": "laboratory grading", "jar": "jar, by settled depth", "stated": "as stated"}
_OF_ALL_JARS = "jar-method"
"""What holds for every jar is said once, under their times."""
_TRIANGLE = (
    "Shares of the soil finer than 2 mm. The class of a soil follows from the rules of the classes, not from the drawn "
    "lines, which are rounded. Shares from a jar are a first guess: clay reads too high in it."
)


def soil_sheets(checked: Checked, practice: MaterialPractice, writer: Writer, lead: list[Row]) -> list[Any]:
    """Nothing where no soil is described."""
    soils = checked.project.soils
    if not soils:
        return []
    records = checked.evidence.soils
    story: list[Any] = [_table(soils, records, writer, lead)]
    points = tuple(plotted(records, checked.evidence.mixes))
    if points:
        story.append(_triangle(TriangleFigure(practice.texture, points)))
    story += _workings(soils, records, writer)
    story += _hand_tests(records)
    story += (
        jar_sheets(soils, records=records, practice=practice, writer=writer, lead=part("jars", "Jars"))
        if records
        else []
    )
    return story


def _table(soils: Mapping[str, Soil], records: Mapping[str, SoilRecord], writer: Writer, lead: list[Row]) -> Sheet:
    rows = [_soil(mark, soil, records.get(mark), writer) for mark, soil in soils.items()]
    head = head_row("Mark", "Soil or aggregate", "Depth, dug", "Clay", "Silt", "Sand", "Gravel", "Shares from",
                    "Texture", "Organic", right=(3, 4, 5, 6))  # fmt: skip
    columns = (Column(natural=True), Column(share=1), Column(54), *(Column(38) for _ in range(4)), Column(62),
               Column(52), Column(38))  # fmt: skip
    return Sheet(columns, rows, head=[head], lead=[*lead, *part("soils", "Soils and aggregates")], below=12)


def _soil(mark: str, soil: Soil, record: SoilRecord | None, writer: Writer) -> Row:
    name = [Words(soil.name, theme.CELL_BOLD)]
    phrases = (soil.place, soil.material.replace("-", " "), _loose(soil, writer), soil.description)
    name += [Words(text, theme.CELL_SMALL) for text in phrases if text]
    shares = record.shares if record else None
    figures = _shares(shares, record.gravel if record else None, writer) if shares else _stated(soil, writer)
    origin = _ORIGINS[record.origin] if record and record.origin else "as stated" if any(_given(soil)) else NOTHING
    texture = (record.texture.name or NOTHING) if record else NOTHING
    dug = Cell((Words(written(soil.depth, "length", writer), theme.CELL), *_day(soil)))
    organic = NOTHING if soil.organic is None else "yes" if soil.organic else "no"
    return Row(
        (cell(mark, theme.CELL_BOLD), Cell(tuple(name)), dug, *(cell(one, theme.NUMBER) for one in figures),
         cell(origin), cell(texture), cell(organic))
    )  # fmt: skip


def written(measure: Measure | None, kind: str, writer: Writer) -> str:
    return NOTHING if measure is None else writer.write(measure.si, kind)


def _given(soil: Soil) -> tuple[Measure | None, ...]:
    return soil.clay, soil.silt, soil.sand, soil.gravel


def _stated(soil: Soil, writer: Writer) -> list[str]:
    return [written(share, "share", writer) for share in _given(soil)]


def _shares(shares: SoilShares, gravel: float | None, writer: Writer) -> list[str]:
    known = [writer.write(one, "share") for one in (shares.clay, shares.silt, shares.sand)]
    return [*known, NOTHING if gravel is None else writer.write(gravel, "share")]


def _loose(soil: Soil, writer: Writer) -> str:
    return f"{writer.write(soil.bulk_density.si, 'density')} loose" if soil.bulk_density else ""


def _day(soil: Soil) -> tuple[Part, ...]:
    return (Words(soil.dug.isoformat(), theme.CELL_SMALL),) if soil.dug else ()


def _triangle(figure: TriangleFigure) -> Sheet:
    rows = [*part("triangle", "Texture of soils and mixes", _TRIANGLE), full_row(figure, air=(0.0, 4.0))]
    rows.append(full_row(Words(legend(figure.points), theme.SMALL_ITALIC)))
    if figure.unlabelled:
        words = f"Without a label for want of room: {', '.join(figure.unlabelled)}."
        rows.append(full_row(Words(words, theme.SMALL_ITALIC)))
    return Sheet((Column(share=1),), (), lead=rows, below=12)


def _hand_tests(records: Mapping[str, SoilRecord]) -> Iterator[Sheet]:
    readings = [(mark, one) for mark, record in records.items() for one in record.readings]
    if not readings:
        return
    rows = [_reading(mark, one) for mark, one in readings]
    note = next(iter(records.values())).practice.note
    head = head_row("Soil", "Hand test", "Reading", "What it is taken to mean", "Points to", "Source", "By, on")
    columns = (Column(32), Column(share=3), Column(48), Column(share=4), Column(42), Column(share=3), Column(62))
    yield Sheet(columns, rows, head=[head], lead=part("hand-tests", "Hand tests", note), below=12)


def _reading(mark: str, one: FieldReading) -> Row:
    meaning = one.meaning
    means = [Words(meaning.means, theme.CELL)]
    means += [Words(one.test.note, theme.CELL_SMALL)] if one.test.note else []
    signed = [one.test.by] if one.test.by else []
    signed += [one.test.date.isoformat()] if one.test.date else []
    return Row(
        (
            cell(mark, theme.CELL_BOLD),
            cell(one.title),
            cell(one.test.reading, theme.CELL_BOLD),
            Cell(tuple(means)),
            cell(", ".join(meaning.suggests) or NOTHING),
            Cell((Words(meaning.source, theme.CELL_SMALL), Words(meaning.standing.value, theme.CELL_SMALL))),
            Cell(tuple(Words(text, theme.CELL_SMALL) for text in signed)),
        )
    )


def _workings(soils: Mapping[str, Soil], records: Mapping[str, SoilRecord], writer: Writer) -> list[Sheet]:
    """How the shares of each soil came out, and what to mind of them."""
    rows = [
        row
        for mark, record in records.items()
        if record.steps or record.remarks or record.jar
        for row in _under_its_name(_worked(mark, soils[mark], record, writer))
    ]
    if not rows:
        return []
    lead = part("soil-shares", "Shares of the soils, worked out")
    return [Sheet((Column(share=1),), rows, lead=lead, below=12)]


def _under_its_name(rows: Iterator[Row]) -> Iterator[Row]:
    """The name of a soil stays with what is said first of it."""
    for index, row in enumerate(rows):
        yield replace(row, joined=True) if index == 1 else row


def _worked(mark: str, soil: Soil, record: SoilRecord, writer: Writer) -> Iterator[Row]:
    origin = f": {_ORIGINS[record.origin]}" if record.origin else ""
    yield full_row(Words(f"{mark}  ·  {soil.name}{origin}", theme.BODY_BOLD), air=(4.0, 1.0))
    if soil.grading:
        points = ", ".join(f"{point.size} {point.finer}" for point in soil.grading.points)
        signed = ", ".join(
            text for text in (soil.grading.by, soil.grading.date and soil.grading.date.isoformat()) if text
        )
        words = f"Finer by dry weight: {points}" + (f" ({signed})" if signed else "")
        yield full_row(Words(words, theme.CALCULATION))
    for step in record.steps:
        source = f"  [{step.source}]" if step.source else ""
        yield full_row(Worked(f"{step.line(writer)}{source}", theme.CALCULATION))
    if record.texture.reason and record.shares is None:
        yield full_row(Words(f"No texture class: {record.texture.reason}.", theme.CALCULATION))
    remarks = (*record.remarks, *(record.jar.remarks if record.jar else ()))
    for says in dict.fromkeys(remark.says for remark in remarks if remark.code != _OF_ALL_JARS):
        yield full_row(Words(says, theme.SMALL_ITALIC))
