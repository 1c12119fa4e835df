"""Schedules of what walls stand on and end in: stem walls, footings, bond beams, each with the walls that have it."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.papers.schedule import NOT_GIVEN, shown
from compliance.drawings.common.inches import written
from compliance.facts.catalogue import FACTS
from compliance.facts.geometry.subjects import Subject
from compliance.record import record
from compliance.report.mark_runs import in_runs
from compliance.report.value_words import NOTHING
from compliance.units import KINDS, Writer


@record
class _Part:
    """`first` are the columns that stand in any case; the others where some subject says something."""

    about: str
    key: str
    title: str
    first: tuple[tuple[str, str], ...]
    others: tuple[tuple[str, str], ...]


_PARTS = (
    _Part("stem", "drawn-schedule-stems", "Stem walls", (("material", "Material"), ("thickness", "Thickness")), (
        ("above_grade", "Above grade"), ("above_floor", "Above floor"), ("moisture_break", "Capillary break"),
        ("concrete_strength", "Concrete"),
    )),
    _Part("footing", "drawn-schedule-footings", "Footings", (("kind", "Type"), ("width", "Width")), (
        ("thickness", "Thickness"), ("bottom", "Underside below grade"), ("bar_count", "Bars along it"),
        ("concrete_strength", "Concrete"), ("drain", "Drain"),
    )),
    _Part("beam", "drawn-schedule-beams", "Bond beams", (("material", "Material"), ("width", "Width")), (
        ("depth", "Depth"), ("continuous", "Continuous"), ("bar_count", "Bars"), ("bar_diameter", "Bar diameter"),
        ("concrete_strength", "Concrete"), ("splice_lap", "Lap splice"), ("anchor_spacing", "Anchors at"),
        ("anchor_diameter", "Anchor diameter"), ("anchor_embedment", "Embedment in the earth"),
    )),
)  # fmt: skip
PART_SCHEDULES = tuple(one.key for one in _PARTS)


def part_schedules(checked: Checked, writer: Writer) -> Iterator[Sheet]:
    """A table for each kind of part that the project describes."""
    for one in _PARTS:
        subjects = list(checked.facts.of(one.about).values())
        if subjects:
            yield _table(checked, one, subjects, writer)


def _table(checked: Checked, of: _Part, subjects: list[Subject], writer: Writer) -> Sheet:
    said = [(name, label) for name, label in of.others if any(_fact_of(of, each, name) for each in subjects)]
    columns = (*of.first, *said)
    numbers = [FACTS[f"{of.about}.{name}"].kind in KINDS for name, _ in columns]
    rows = []
    for subject in subjects:
        cells = [_cell(subject, f"{of.about}.{name}", writer) for name, _ in columns]
        walls = [mark for mark, wall in checked.project.walls.items() if getattr(wall, of.about) == subject.mark]
        named = cell(", ".join(in_runs(walls)) or "no wall")
        rows.append(Row((cell(subject.mark, theme.CELL_BOLD), *cells, named), air=(1.2, 1.6)))
    right = [index for index, number in enumerate(numbers, start=1) if number]
    head = head_row("Mark", *(label for _, label in columns), "Walls", right=right)
    widths = (Column(46), *(Column(share=1) for _ in columns), Column(share=1.4))
    return Sheet(widths, rows, head=[head], lead=part(of.key, of.title), below=14)


def _fact_of(of: _Part, subject: Subject, name: str) -> bool:
    return subject.fact(f"{of.about}.{name}").value is not None


def _cell(subject: Subject, name: str, writer: Writer) -> Cell:
    fact, kind = subject.fact(name), FACTS[name].kind
    if isinstance(fact.value, float) and kind == "thickness":
        return cell(written(writer, fact.value, kind), theme.NUMBER)
    text = shown(fact, kind, writer)
    return cell(NOT_GIVEN if text == NOTHING else text, theme.NUMBER if kind in KINDS else theme.CELL)
