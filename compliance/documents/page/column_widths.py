"""How wide the columns of a sheet are: fixed, by share of what is left, or after their contents."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from compliance.documents.elements.theme import Style
from compliance.documents.page.faces import clean, em_width, face_for
from compliance.documents.page.rows import GAP, Column, Row
from compliance.units import words_of

_ONE_LINE = 1e6


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
                        longest = max(em_width(word, line.face) for word in words_of(line.text) or [""])
                        yield index, line.indent + longest * size, line.indent + em_width(line.text, line.face) * size
            index += one.span
