"""How wide the columns of a sheet are: fixed, by share of what is left, or after their contents; and where numbers
stand in them: those of one unit with their decimal points one under the other."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from compliance.documents.elements.theme import Style
from compliance.documents.page.faces import clean, em_width, face_for
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import GAP, Cell, Column, Row
from compliance.record import replace
from compliance.report.value_words import NOTHING
from compliance.units import KINDS, words_of

_ONE_LINE = 1e6
_UNITS = {one for kind in KINDS.values() for one in (kind.us, kind.si) if one not in ("", "ft-in")} | {"ft"}
_DECIMAL = re.compile(r"([−-]?\d+)(?:\.\d+)?(?: ?([^\d\s.]\S*))?")
_FEET = re.compile(r"([−-]?\d+) ft \d.* in")
_FRACTION = re.compile(r"(?:(\d+) )?\d+/\d+ in")
_WITHOUT = {"", NOTHING, "not given"}
"""What may stand in a column of numbers for a number that is not there."""
_SAME = 0.01
"""Widths that differ by less, in points, are alike."""


def columns_fitted(columns: Sequence[Column], width: float, rows: Iterable[Row]) -> list[float]:
    """The width of each column in points. Columns after their contents get at least their longest word where
    there is room for it, and what nobody asks for is shared out."""
    widths = [float(column.width) for column in columns]
    after = [index for index, column in enumerate(columns) if column.natural]
    shares = sum((column.share for column in columns), 0.0)
    room = width - sum(widths)
    if after:
        least, most = _contents(rows, len(columns))
        shared = _shared_out([least[i] for i in after], [most[i] for i in after], room, not shares)
        for index, found in zip(after, shared, strict=True):
            widths[index] = found
        room -= sum(shared)
    for index, column in enumerate(columns):
        if column.share:
            widths[index] = room * column.share / shares
    return widths


def longest_word(text: str, style: Style) -> float:
    """Width in points of the longest word of a text, a number and its unit being one word."""
    cleaned = clean(text)
    face = face_for(cleaned, style.face)
    return (
        max((em_width(word, face) for line in cleaned.split("\n") for word in words_of(line)), default=0.0) * style.size
    )


def _shared_out(least: list[float], most: list[float], room: float, spread: bool) -> list[float]:
    low, high = sum(least), sum(most)
    if high <= room:
        stretch = room / high if spread and high else 1.0
        return [one * stretch for one in most]
    if low >= room:
        return _capped(least, room)
    share = (room - low) / (high - low)
    return [one + share * (other - one) for one, other in zip(least, most, strict=True)]


def _capped(least: list[float], room: float) -> list[float]:
    """The widths with the widest of them cut to one width, so that they fill `room`: long words are broken before
    figures are."""
    left, narrow = room, sorted(least)
    for index, width in enumerate(narrow):
        cap = left / (len(narrow) - index)
        if width >= cap:
            return [min(one, cap) for one in least]
        left -= width
    return least


def _contents(rows: Iterable[Row], count: int) -> tuple[list[float], list[float]]:
    """For each column the width of its longest word and of its longest line, gaps included."""
    least, most = [0.0] * count, [0.0] * count
    for index, low, high in _cells(rows):
        least[index], most[index] = max(least[index], low), max(most[index], high)
    return [one + 2 * GAP for one in least], [one + 2 * GAP for one in most]


def _cells(rows: Iterable[Row]) -> Iterator[tuple[int, float, float]]:
    for row in rows:
        index = 0
        for one in row.cells:
            if one.span == 1:
                for line in (line for part in one.parts for line in part.lines(_ONE_LINE)):
                    if line.style:
                        size = line.style.size
                        whole = [line.text] if _FEET.fullmatch(line.text) else words_of(line.text)
                        longest = max(em_width(word, line.face) for word in whole or [""])
                        beside = line.indent + line.clear
                        yield index, beside + longest * size, beside + em_width(line.text, line.face) * size
            index += one.span


class _Number(NamedTuple):
    """A cell that holds a number: what stands left and right of where its column is aligned, in points."""

    row: int
    cell: int
    unit: str
    before: float
    behind: float
    is_right: bool


Places = Mapping[tuple[int, int], tuple[float, float]]
"""By the index of a row and of its cell: what is kept clear left and right of a number, in points."""


def decimals_aligned(rows: Sequence[Row], columns: int) -> dict[int, tuple[float, Places]]:
    """By column in which numbers of one unit can stand with their decimal points one under the other, feet under feet:
    the room this takes, and the places of the numbers. Where the units of a column differ, its rows are taken from one
    title across the table to the next. What is printed stays as it is."""
    found: dict[int, tuple[float, Places]] = {}
    for index in range(columns):
        parts = [_read(rows, part) for part in _between_titles(rows, index)]
        made = _aligned(rows, [one for numbers, _ in parts for one in numbers], sum(others for _, others in parts))
        runs = [made] if made else [run for part in parts if (run := _aligned(rows, *part))]
        if runs:
            found[index] = max(room for room, _ in runs), {at: own for _, places in runs for at, own in places.items()}
    return found


def with_places(rows: Sequence[Row], places: Iterable[Places]) -> list[Row]:
    """The rows with their numbers in these places."""
    by_row: dict[int, dict[int, tuple[float, float]]] = defaultdict(dict)
    for one in places:
        for (row, at), clear in one.items():
            by_row[row][at] = clear
    made = list(rows)
    for number, moved in by_row.items():
        cells = (_moved(one, moved.get(at)) for at, one in enumerate(made[number].cells))
        made[number] = replace(made[number], cells=tuple(cells))
    return made


def _moved(one: Cell, clear: tuple[float, float] | None) -> Cell:
    first, *more = one.parts or (None,)
    if clear is None or not isinstance(first, Words):
        return one
    return replace(one, parts=(replace(first, indent=clear[0], clear=clear[1]), *more))


def _between_titles(rows: Sequence[Row], column: int) -> Iterator[list[tuple[int, int]]]:
    """The rows and cells of a column, anew after each row in which a cell spans it."""
    part: list[tuple[int, int]] = []
    for number, row in enumerate(rows):
        index = 0
        for at, one in enumerate(row.cells):
            if index == column and one.span == 1:
                part.append((number, at))
            elif index <= column < index + one.span:
                yield part
                part = []
            index += one.span
    yield part


def _read(rows: Sequence[Row], cells: Sequence[tuple[int, int]]) -> tuple[list[_Number], int]:
    """The numbers among some cells, and how many of the cells hold something else."""
    numbers: list[_Number] = []
    others = 0
    for row, at in cells:
        part = rows[row].cells[at].parts[0] if rows[row].cells[at].parts else None
        text = clean(part.text) if isinstance(part, Words) else ""
        if isinstance(part, Words) and (number := _number(text, part, row, at)):
            numbers.append(number)
        else:
            others += text not in _WITHOUT
    return numbers, others


def _aligned(rows: Sequence[Row], numbers: list[_Number], others: int) -> tuple[float, Places] | None:
    """None where there is nothing to align, or no one unit."""
    units = {one.unit for one in numbers}
    if units == {"ft", "in"}:
        numbers = [_under_feet(one, rows) if one.unit == "in" else one for one in numbers]
    elif len(units) != 1:
        return None
    right = all(one.is_right for one in numbers)
    if not right and (others or "" in units or any(one.is_right for one in numbers)):
        return None
    before, behind = max(one.before for one in numbers), max(one.behind for one in numbers)
    away = [behind - one.behind if right else before - one.before for one in numbers]
    if max(away) < _SAME:
        return None
    places = {(one.row, one.cell): (0.0, far) if right else (far, 0.0) for one, far in zip(numbers, away, strict=True)}
    return before + behind, places


def _number(text: str, part: Words, row: int, at: int) -> _Number | None:
    """What a text is where it is one number with its unit, or feet and inches; else None."""
    if part.style.align == "centre" or part.indent:
        return None
    face, size, unit = face_for(text, part.style.face), part.style.size, ""
    if found := _DECIMAL.fullmatch(text):
        unit = found.group(2) or ""
        if unit and unit not in _UNITS:
            return None
    elif found := _FEET.fullmatch(text):
        unit = "ft"
    elif found := _FRACTION.fullmatch(text):
        unit = "in"
    else:
        return None
    before = em_width(found.group(1) or "", face) * size
    whole = em_width(text, face) * size
    return _Number(row, at, unit=unit, before=before, behind=whole - before, is_right=part.style.align == "right")


def _under_feet(one: _Number, rows: Sequence[Row]) -> _Number:
    """Inches alone, set where they stand behind feet."""
    part = rows[one.row].cells[one.cell].parts[0]
    assert isinstance(part, Words)
    feet = em_width(" ft ", face_for("ft", part.style.face)) * part.style.size
    return one._replace(before=-feet, behind=one.before + one.behind + feet)
