"""The table a laboratory fills in: the columns of the lab tables under headings in words, unit in brackets, so that it
reads back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.lab_request.waiting_specimens import Planned, PlannedSet
from compliance.documents.page.column_widths import longest_word
from compliance.documents.page.form_fields import text_field
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Drawn, Words
from compliance.documents.page.rows import GAP, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.model.lab_columns import COLUMNS, LabColumn, Supplier
from compliance.model.materials import SpecimenKind
from compliance.record import record
from compliance.units import Writer

_TALL = 19.0
_KEYS = ("set", "specimen")
"""They stand first in every part of a table that is too wide for one."""
_ROOM = {"text": 58.0, "date": 50.0, "choice": 36.0}
_ROOM_FOR_MARK, _ROOM_FOR_FIGURE = 34.0, 38.0
"""Points to write a cell in."""
_LABEL = "{:.6g}"
_SUPPLIERS: dict[Supplier, str] = {"builder": "by the builder", "laboratory": "by the laboratory"}


def headings(kind: SpecimenKind, writer: Writer) -> list[str]:
    """The heading of each column, as people write it and the reader of lab tables takes it: `Peak load [lbf]`."""
    return [column.heading_in_words(writer) for column in COLUMNS[kind].values()]


def known_cells(of: PlannedSet, one: Planned, writer: Writer) -> dict[str, str]:
    """What is known of a specimen before the test, by column; empty where someone fills in."""
    known = {"set": of.mark, "specimen": one.mark, "mix": of.test.mix}
    return {
        name: known.get(name) or (_known(one, column, writer) if one.row else "")
        for name, column in COLUMNS[of.test.kind].items()
    }


def _known(one: Planned, column: LabColumn, writer: Writer) -> str:
    value = one.row.value(column.name) if one.row else None
    if value is None:
        return ""
    return _LABEL.format(writer.number(value, column.what)) if isinstance(value, float) else str(value)


@record
class _Line:
    """A specimen in the table: a name for its fields, and what is known of it by column."""

    key: str
    known: dict[str, str]


@record
class _Part:
    """As many columns as fit side by side. `suffix` of its title says who fills them in."""

    columns: tuple[LabColumn, ...]
    suffix: str = ""


def results_sheets(kind: SpecimenKind, sets: Sequence[PlannedSet], writer: Writer, width: float) -> Iterator[Sheet]:
    """One row for each specimen of a kind of test; in several tables where the columns need more than `width` points:
    what the builder enters, then what the laboratory does."""
    lines = [
        _Line(f"{of.mark}-{number}", known_cells(of, one, writer))
        for of in sets
        for number, one in enumerate(of.specimens, start=1)
    ]
    for index, each in enumerate(_parts(kind, lines, writer, width)):
        needed = [_width(column, lines, writer) for column in each.columns]
        columns = [Column(width * one / sum(needed)) for one in needed]
        words = f"{_about(kind) if not index else ''}{_meanings(each.columns)}"
        key = f"results-{kind}-{index}" if index else f"results-{kind}"
        lead = [*part(key, f"Results: {kind}{each.suffix}"), full_row(Words(words, theme.SMALL, after=4.0))]
        rows = [_row(each.columns, line) for line in lines]
        titles = head_row(*(column.heading_in_words(writer) for column in each.columns))
        yield Sheet(columns, rows, head=[titles], lead=lead, grid=True, below=14)


def _parts(kind: SpecimenKind, lines: Sequence[_Line], writer: Writer, width: float) -> list[_Part]:
    columns = tuple(COLUMNS[kind].values())
    if sum(_width(column, lines, writer) for column in columns) <= width:
        return [_Part(columns)]
    keys = tuple(column for column in columns if column.name in _KEYS)
    parts = []
    for supplier, phrases in _SUPPLIERS.items():
        rest = [column for column in columns if column.supplier == supplier and column not in keys]
        for index, run in enumerate(_runs(rest, keys=keys, lines=lines, writer=writer, width=width)):
            parts.append(_Part((*keys, *run), f", filled in {phrases}{', continued' if index else ''}"))
    return parts


def _runs(
    columns: Sequence[LabColumn], keys: Sequence[LabColumn], lines: Sequence[_Line], writer: Writer, width: float
) -> Iterator[list[LabColumn]]:
    """The columns cut into runs that fit beside the keys."""
    room = width - sum(_width(column, lines, writer) for column in keys)
    run: list[LabColumn] = []
    used = 0.0
    for column in columns:
        needed = _width(column, lines, writer)
        if run and used + needed > room:
            yield run
            run, used = [], 0.0
        run.append(column)
        used += needed
    if run:
        yield run


def _width(column: LabColumn, lines: Sequence[_Line], writer: Writer) -> float:
    """Points in which no word of the column is broken and a cell can be written in."""
    if column.what == "text" and column.supplier == "builder":
        room = _ROOM_FOR_MARK
    else:
        room = _ROOM.get(column.what, _ROOM_FOR_FIGURE)
    words = [longest_word(line.known[column.name], theme.CELL_BOLD) for line in lines]
    return max(
        room, longest_word(column.heading_in_words(writer), theme.HEADING) + 2 * GAP, *(one + 2 * GAP for one in words)
    )


def _about(kind: SpecimenKind) -> str:
    return (
        f"Results of {kind} tests, in this table or a spreadsheet with the same headings. Figures are plain decimals "
        "in the unit of their column, days are written 2026-05-14. Leave empty what was not measured. No specimen is "
        "left out because it is weak: note what was seen. "
    )


def _meanings(columns: Sequence[LabColumn]) -> str:
    """What to enter in each column, and the words it takes."""
    phrases = []
    for column in columns:
        words = f" ({', '.join(column.choices)})" if column.choices else ""
        phrases += [f"{column.words}: {column.meaning}{words}"] if column.name not in _KEYS else []
    return f"{'; '.join(phrases)}."


def _row(columns: Sequence[LabColumn], line: _Line) -> Row:
    return Row(tuple(_cell(column, line) for column in columns), air=(2.0, 2.0))


def _cell(column: LabColumn, line: _Line) -> Cell:
    text = line.known[column.name]
    if text:
        return cell(text, theme.CELL_BOLD if column.name == "specimen" else theme.CELL)
    blank = _Blank(f"result-{line.key}-{column.name}", f"{line.key}: {column.words}")
    return Cell((Drawn(_TALL - 4, Lettered(blank.draw)),))


@record
class _Blank:
    """Room to write in, and a field to type in."""

    name: str
    tip: str

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        text_field(canvas, self.name, self.tip, (left - 3, top - _TALL + 4, left + width + 3, top))
