"""Dimension lines along the page: chains whose texts give way to each other, and single ones."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import permutations

from compliance.drawings.common.board import Board, TextMetrics
from compliance.drawings.common.inches import written
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.primitives import Box, Dimension, Lettering, Pen, Point
from compliance.record import record

_OFF = 1.4
"""From a dimension line to its text, in points."""
_ROW = Role.DIMENSION.height + 1.6
_MOST_ROWS = 7
_BESIDE = 2.5
_MOST_TURNED = 4
"""Texts of which every order is tried."""
_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
"""How far along a text its line may meet it, where another text is in the way of the middle."""


@record
class Span:
    """A length to dimension, from `low` to `high` along the line, in points. `value` in m; `subject` in words."""

    low: float
    high: float
    value: float
    subject: str
    kind: str = "length"

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


@record
class Set:
    """Where the text of a span goes: its row off the line (0: on it) and its ends along the line."""

    row: int
    low: float
    high: float


def stagger(spans: Sequence[Span], widths: Sequence[float], least: float, most: float) -> list[Set | None]:
    """A place for each text: on its line where it fits, else in the lowest row where neither a text nor a line that
    leads to one is in the way. None where no row has room between `least` and `most`."""
    order = sorted(range(len(spans)), key=lambda index: (spans[index].middle, index))
    places: list[Set | None] = [None] * len(spans)
    for index in order:
        low, high = spans[index].middle - widths[index] / 2, spans[index].middle + widths[index] / 2
        if widths[index] + 2 * _OFF <= spans[index].high - spans[index].low and least <= low and high <= most:
            places[index] = Set(0, low, high)
    off_line = [index for index in order if places[index] is None]
    found = (
        _off_line(turn, spans=spans, widths=widths, on_line=places, least=least, most=most) for turn in _turns(off_line)
    )
    return _fullest(found) if off_line else places


def _turns(order: Sequence[int]) -> Iterator[Sequence[int]]:
    """Orders in which texts may look for their place: as they follow, and others where that leaves one out."""
    yield order
    yield from permutations(order) if len(order) <= _MOST_TURNED else (order[::-1], [*order[::2], *order[1::2]])


def _fullest(found: Iterator[list[Set | None]]) -> list[Set | None]:
    """The first without a text left out, else the one that leaves out the fewest."""
    best = next(found)
    while (out := best.count(None)) and (other := next(found, None)):
        best = other if other.count(None) < out else best
    return best


def _off_line(
    turn: Sequence[int], spans: Sequence[Span], widths: Sequence[float], on_line: Sequence[Set | None], least: float,
    most: float,
) -> list[Set | None]:  # fmt: skip
    rows: list[list[tuple[float, float]]] = [[] for _ in range(_MOST_ROWS + 1)]
    leads: list[tuple[float, int]] = []
    places = list(on_line)
    for index in turn:
        places[index] = place = _in_a_row(
            spans[index].middle, width=widths[index], least=least, most=most, rows=rows, leads=leads
        )
        if place:
            rows[place.row].append((place.low, place.high))
            leads.append((spans[index].middle, place.row))
    return places


def _in_a_row(
    middle: float, width: float, least: float, most: float, rows: list[list[tuple[float, float]]],
    leads: list[tuple[float, int]],
) -> Set | None:  # fmt: skip
    for row in range(1, len(rows)):
        for low in (*(middle - width * share for share in _SHARES), middle - _BESIDE, middle - width + _BESIDE):
            high = low + width
            if low < least or high > most or any(low < b + _BESIDE and a < high + _BESIDE for a, b in rows[row]):
                continue
            crossed = any(low - 1 < lead < high + 1 and far > row for lead, far in leads)
            barred = any(a - 1 < middle < b + 1 for nearer in rows[1:row] for a, b in nearer)
            if not crossed and not barred:
                return Set(row, low, high)
    return None


def rows_needed(metrics: TextMetrics, spans: Sequence[Span], least: float, most: float) -> int:
    """How many rows beyond the line the texts of a chain take."""
    return max((place.row for place in stagger(spans, _widths(metrics, spans), least, most) if place), default=0)


def chain_depth(rows: int) -> float:
    """What a chain with that many rows beyond its line takes across it, in points."""
    return _OFF + (rows + 1) * _ROW


def _widths(metrics: TextMetrics, spans: Sequence[Span]) -> list[float]:
    return [metrics.letters(text_of(metrics, span), Role.DIMENSION) for span in spans]


def text_of(metrics: TextMetrics, span: Span) -> str:
    return written(metrics.writer, span.value, span.kind)


def chain(
    board: Board, spans: Sequence[Span], at: float, least: float, most: float, upright: bool = False, away: int = 1,
    feet: Sequence[float] = (), plate: bool = False,
) -> None:  # fmt: skip
    """A chain of dimensions on the line y = `at` (x = `at` where `upright`), its texts on the side `away` (1: above, or
    to the right; -1: below, or to the left). `least` and `most` bound the texts along it. `feet` are, for each span,
    how far across the line the measured points lie. A `plate` clears what lies under the texts."""
    places = stagger(spans, _widths(board.metrics, spans), least, most)
    for index, (span, place) in enumerate(zip(spans, places, strict=True)):
        start, end = _at(span.low, at, upright), _at(span.high, at, upright)
        text = text_of(board.metrics, span)
        foot = feet[index] if feet else at
        ends = (_at(span.low, foot, upright), _at(span.high, foot, upright)) if feet else ()
        board.items.append(Dimension(start, end=end, value=span.value, subject=span.subject, text=text, feet=ends))
        board.placer.avoid(start, end)
        for point, base in zip((start, end), ends, strict=False):
            board.placer.avoid(base, point)
        if place is None or not _set_text(
            board, text=text, span=span, place=place, at=at, upright=upright, away=away, plate=plate
        ):
            board.unset.append(f"{span.subject}: {text}")


def _at(along: float, across: float, upright: bool) -> Point:
    return (across, along) if upright else (along, across)


def _set_text(
    board: Board, text: str, span: Span, place: Set, at: float, upright: bool, away: int, plate: bool
) -> bool:
    near = _OFF + place.row * _ROW
    far = near + Role.DIMENSION.height
    low, high = sorted((at + away * near, at + away * far))
    box = Box(low, place.low, high, place.high) if upright else Box(place.low, low, place.high, high)
    if not board.placer.free(box, off_lines=False):
        return False
    board.placer.take(box)
    board.items.append(Lettering(text, box=box, role=Role.DIMENSION, upright=upright, plate=plate))
    if place.row:
        board.stroke(_at(span.middle, at, upright), _at(span.middle, at + away * near, upright), pen=Pen.MEASURE)
    return True


def spans_between(
    stations: Sequence[float], along: Sequence[float], subjects: Sequence[str], kind: str = "length"
) -> Iterator[Span]:
    """Spans from each station to the next. `stations` in m, `along` the same places on the page."""
    for index, subject in enumerate(subjects):
        low, high = sorted((along[index], along[index + 1]))
        yield Span(low, high=high, value=abs(stations[index + 1] - stations[index]), subject=subject, kind=kind)
