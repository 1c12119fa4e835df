"""The schedules among the drawings: walls, openings with their lintels, what walls stand on and end in, mixes with
their tests."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from reportlab.platypus.doctemplate import NextPageTemplate
from reportlab.platypus.flowables import PageBreak

from compliance.checked import Checked
from compliance.documents.earth.trial_table import parts_of, straw_of
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.figures.part_schedules import PART_SCHEDULES, part_schedules
from compliance.documents.page.book import DRAWN_WHOLE, SheetSeries
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.papers.schedule import NOT_GIVEN, own_length, shown
from compliance.drawings.common.draft import elevation_key
from compliance.drawings.common.inches import written
from compliance.drawings.common.lettering import LEAST
from compliance.facts.catalogue import FACTS
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.model.walls import Opening, Wall
from compliance.report.counting_results import counting_results
from compliance.report.mark_runs import in_runs
from compliance.report.value_words import NOTHING, counted
from compliance.units import Measure, Writer

_WALL = (
    ("wall.use", "Place"), ("wall.bears_load", "Bears"), ("wall.length", "Length"), ("wall.height", "Height"),
)  # fmt: skip
_AIR = (1.2, 1.6)
_RODS = "Where bars or rods stand is not described: sections show them by a sign, elevations do not."
_WALLS, _OPENINGS, _MIXES = "drawn-schedule-walls", "drawn-schedule-openings", "drawn-schedule-mixes"
SCHEDULES = (_WALLS, _OPENINGS, *PART_SCHEDULES, _MIXES)
"""The places of the schedules."""
ELEVATIONS, SECTIONS = "A-2", "A-3"
"""The series whose last sheet may have room for schedules."""


def schedule_tables(checked: Checked) -> list[Sheet]:
    """All of them, as wide as a sheet."""
    writer = Writer(checked.project.project.units)
    tables = [_walls(checked, writer), *_openings(checked, writer)]
    return [*tables, *part_schedules(checked, writer), *_mixes(checked, writer)]


def schedule_sheets(tables: Sequence[Sheet]) -> list[Any]:
    """A series of sheets with these tables; nothing without any."""
    return [NextPageTemplate(DRAWN_WHOLE), PageBreak(), SheetSeries("A-6", "Schedules"), *tables] if tables else []


def schedules_beside(
    tables: Sequence[Sheet], free: Mapping[str, Sequence[float]], width: float
) -> dict[str, list[list[Sheet]]]:
    """By series what of the schedules stands on its last sheet, in each column that has something free. `free` are
    these heights of the series of elevations and of sections, `width` that of a column, in points. Empty where not all
    of them find room: then they have sheets of their own."""
    narrow = [one.with_natural_columns().lettered(LEAST) for one in tables]
    if any(one.breaks_words(width) for one in narrow):
        return {}
    faces = [one for one in narrow if any(row.anchor and row.anchor.key in (_WALLS, _OPENINGS) for row in one.lead)]
    others = [one for one in narrow if one not in faces]
    for with_elevations, with_sections in ((faces, others), ([], narrow)):
        found = {
            series: _columns_filled(some, free.get(series, ()), width)
            for series, some in ((ELEVATIONS, with_elevations), (SECTIONS, with_sections))
        }
        if all(columns is not None for columns in found.values()):
            return {series: columns for series, columns in found.items() if columns}
    return {}


def _columns_filled(tables: Sequence[Sheet], free: Sequence[float], width: float) -> list[list[Sheet]] | None:
    """The tables in their order in columns with these heights free; None where they do not fit."""
    columns: list[list[Sheet]] = []
    left = 0.0
    for one in tables:
        height = one.wrap(width, 1e6)[1] + one.spaceAfter
        while height > left:
            if len(columns) == len(free):
                return None
            left = free[len(columns)]
            columns.append([])
        columns[-1].append(one)
        left -= height
    return columns


def _walls(checked: Checked, writer: Writer) -> Sheet:
    facts = checked.facts.of("wall")
    rows = []
    for mark, wall in checked.project.walls.items():
        cells = [cell(mark, theme.CELL_BOLD, link=elevation_key(mark)), cell(wall.name or NOTHING)]
        for name, _ in _WALL:
            text = own_length(checked, facts[mark], writer) if name == "wall.length" else None
            cells.append(_fact(facts[mark], name, writer, text))
        cells += [cell(written(writer, one, "thickness"), theme.NUMBER) for one in ends_of_section(wall)]
        cells += [cell(text or NOTHING) for text in (wall.mix, wall.stem, wall.footing, wall.beam)]
        rows.append(Row((*cells, cell(_reinforcement(wall))), air=_AIR))
    head = head_row(
        "Wall", "Name", *(label for _, label in _WALL), "Base", "Top", "Mix", "Stem wall", "Footing", "Bond beam",
        "Reinforcement as described",
        right=(4, 5, 6, 7),
    )  # fmt: skip
    columns = (Column(46), Column(share=1), *(Column(natural=True) for _ in range(len(_WALL) + 6)), Column(share=2))
    said = ["Height from the top of the stem wall; thickness without finishes."]
    if any(wall.reinforcement for wall in checked.project.walls.values()):
        said.append(_RODS)
    lead = part(_WALLS, "Walls", " ".join(said))
    return Sheet(columns, rows, head=[head], lead=lead, below=14)


def _fact(subject: Subject, name: str, writer: Writer, text: str | None) -> Cell:
    number = isinstance(subject.fact(name).value, float)
    return cell(text or shown(subject.fact(name), FACTS[name].kind, writer), theme.NUMBER if number else theme.CELL)


def _reinforcement(wall: Wall) -> str:
    if wall.reinforced is False:
        return "none"
    return wall.reinforcement or ("described as reinforced, not how" if wall.reinforced else "not described")


def _openings(checked: Checked, writer: Writer) -> list[Sheet]:
    rows = []
    for mark, wall in checked.project.walls.items():
        for name, one in wall.openings.items():
            sizes = [cell(writer.write(of.si, "length"), theme.NUMBER) for of in (one.width, one.height, one.sill)]
            named = cell(name, theme.CELL_BOLD, link=elevation_key(mark))
            rows.append(Row((named, cell(mark), cell(one.kind), *sizes, *_lintel(one, writer)), air=_AIR))
    if not rows:
        return []
    head = head_row(
        "Opening", "Wall", "Kind", "Width", "Height", "Sill", "Lintel", "Wide", "Deep", "Bearing, each end",
        "Species and grade", right=(3, 4, 5, 7, 8, 9),
    )  # fmt: skip
    columns = (*(Column(share=1) for _ in range(7)), *(Column(share=0.8) for _ in range(2)), Column(share=1.2),
               Column(share=2))  # fmt: skip
    lead = part(_OPENINGS, "Openings and lintels", "Sill above the top of the stem wall.")
    return [Sheet(columns, rows, head=[head], lead=lead, below=14)]


def _lintel(opening: Opening, writer: Writer) -> list[Cell]:
    lintel = opening.lintel
    if lintel is None:
        return [cell("not described"), *(cell(NOTHING, theme.NUMBER) for _ in range(3)), cell(NOTHING)]
    if lintel.material == "bond-beam":
        return [cell("bond beam"), *(cell(NOTHING, theme.NUMBER) for _ in range(3)), cell(NOTHING)]
    sizes = [cell(_size(one, writer), theme.NUMBER) for one in (lintel.width, lintel.depth, lintel.bearing)]
    return [cell(lintel.material), *sizes, cell(" ".join(filter(None, (lintel.species, lintel.grade))) or NOT_GIVEN)]


def _size(measure: Measure | None, writer: Writer) -> str:
    return written(writer, measure.si, "thickness") if measure else NOT_GIVEN


def _mixes(checked: Checked, writer: Writer) -> list[Sheet]:
    rows = []
    for mark, mix in checked.project.mixes.items():
        parts = ", ".join(text for text in (parts_of(mix), straw_of(mix)) if text and text != NOTHING)
        walls = [wall for wall, one in checked.project.walls.items() if one.mix == mark]
        sets = [name for name, one in checked.project.test_sets.items() if one.mix == mark]
        tests = "; ".join(_set(checked, name, writer) for name in sets) or "no set of specimens"
        texts = (mix.name or NOTHING, parts or NOT_GIVEN, ", ".join(in_runs(walls)) or "no wall", tests)
        rows.append(Row((cell(mark, theme.CELL_BOLD), *(cell(text) for text in texts)), air=_AIR))
    if not rows:
        return []
    head = head_row("Mix", "Name", "Parts by loose volume", "Walls", "Tests: results that count")
    columns = (Column(46), Column(share=2), Column(share=2), Column(share=1), Column(share=4))
    return [Sheet(columns, rows, head=[head], lead=part(_MIXES, "Mixes"), below=14)]


def _set(checked: Checked, mark: str, writer: Writer) -> str:
    kind = checked.project.test_sets[mark].kind
    counting = counting_results(checked, mark)
    values: Sequence[float] = list(counting.values.values())
    if not values:
        return f"{mark} {kind}, no result{' counts' if counting.aside else ''}"
    of = "share" if kind == "shrinkage" else "stress"
    worst = writer.write(max(values) if kind == "shrinkage" else min(values), of)
    mean = writer.write(sum(values) / len(values), of)
    which = "greatest" if kind == "shrinkage" else "lowest"
    beside = f" ({counting.beside})" if counting.beside else ""
    return f"{mark} {kind}, {counted(len(values), 'result')}, {which} {worst}, mean {mean}{beside}"
