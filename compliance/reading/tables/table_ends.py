"""What stands above and below a table of a laboratory, told as what to write in place of what follows from it."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from compliance.problems import Place, Problem
from compliance.reading.tables.csv_heading import folded
from compliance.record import record

_LOOKED_AT = 100
_LEAST = 2
"""So many known headings in a row make it the heading row."""

Numbered = tuple[int, list[str]]


@record
class KnownTable:
    """What is known of a table that could not be read: its file, its rows, the headings it may have (folded, without
    units), the marks of the sets, and where to say more of it."""

    file: str
    rows: Sequence[Numbered]
    headings: Collection[str]
    sets: Collection[str]
    entry: str


def with_table_ends(problems: list[Problem], table: KnownTable) -> list[Problem]:
    """One problem with its cure in place of all that follow from a letterhead or a footer; else the problems."""
    filled = [(line, [cell.strip() for cell in cells]) for line, cells in table.rows if any(map(str.strip, cells))]
    return _letterhead(table, filled) or _footer(problems, table, filled) or problems


def _letterhead(table: KnownTable, filled: Sequence[Numbered]) -> list[Problem]:
    if not filled:
        return []
    scores = [(_score(cells, table.headings), -index) for index, (_, cells) in enumerate(filled[:_LOOKED_AT])]
    best, index = max(scores)
    if best < _LEAST or index == 0 or scores[0][0] >= best:
        return []
    line, first = filled[-index][0], filled[0][0]
    wrong = f"row {first} does not hold the headings: they stand in row {line}"
    return [
        Problem(Place(table.file, first, 1), "lab-letterhead", wrong, f"say heading_row: {line} under {table.entry}")
    ]


def _score(cells: Sequence[str], headings: Collection[str]) -> int:
    return sum(folded(cell) in headings or folded(cell.partition("[")[0]) in headings for cell in cells if cell)


def _lacks_only_its_set(cells: Sequence[str], specimen: Sequence[str], sets: Collection[str]) -> bool:
    """Whether a row is filled wherever that of a specimen is, but for the cell of its set: it must not be cut off."""
    return len(cells) >= len(specimen) and all(
        not one if like in sets else bool(one) or not like for one, like in zip(cells, specimen, strict=False)
    )


def _footer(problems: Sequence[Problem], table: KnownTable, filled: Sequence[Numbered]) -> list[Problem]:
    """The problems above the end of the table, and one for all below it."""
    named = [(line, cells) for line, cells in filled if any(cell in table.sets for cell in cells)]
    if not named:
        return []
    last, like = named[-1]
    specimens = [line for line, cells in filled if line <= last or _lacks_only_its_set(cells, like, table.sets)]
    below = [one for one in problems if one.place.file == table.file and one.place.line > specimens[-1]]
    if not below:
        return []
    first = min(below)
    wrong = f"row {first.place.line} is below the last specimen, in row {specimens[-1]}"
    advice = f"say last_row: {specimens[-1]} under {table.entry}"
    return [*(one for one in problems if one not in below), Problem(first.place, "lab-footer", wrong, advice)]
