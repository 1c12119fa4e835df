"""Where lettering goes: boxes taken, lines to keep off, and the first free spot of those proposed."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import pairwise

from compliance.drawings.common.primitives import Box, Point, box_about

_SQUARE = 48.0
_GAP = 0.8
"""Least clear space between two texts, in points."""
_REACHES = (3.0, 10.0, 20.0, 34.0, 52.0, 74.0)
_DIRECTIONS = tuple((math.cos(math.radians(angle)), math.sin(math.radians(angle))) for angle in range(0, 360, 30))


class Placer:
    """Keeps the boxes of all lettering of one drawing apart, inside `frame`. The same calls in the same order give the
    same places."""

    def __init__(self, frame: Box) -> None:
        self.frame = frame
        self._boxes: dict[tuple[int, int], list[Box]] = defaultdict(list)
        self._lines: dict[tuple[int, int], list[tuple[Point, Point]]] = defaultdict(list)

    def take(self, box: Box) -> None:
        """Keep `box` free of further lettering."""
        for square in _squares(box):
            self._boxes[square].append(box)

    def avoid(self, *points: Point, closed: bool = False) -> None:
        """Keep lettering off the line through `points` where there is room elsewhere."""
        ends = (*points, points[0]) if closed else points
        for start, end in pairwise(ends):
            for square in _crossed_squares(start, end):
                self._lines[square].append((start, end))

    def free(self, box: Box, off_lines: bool = True) -> bool:
        """Is `box` inside the frame, clear of all that is taken and, if asked for, of all lines?"""
        if not self.frame.holds(box):
            return False
        squares = list(_squares(box.grown(_GAP)))
        if any(box.overlaps(other, _GAP) for square in squares for other in self._boxes.get(square, ())):
            return False
        return not (off_lines and any(
            crosses(box, start, end) for square in squares for start, end in self._lines.get(square, ())
        ))  # fmt: skip

    def is_clear_line(self, start: Point, end: Point) -> bool:
        """Does the line from `start` to `end` run over no lettering?"""
        return not any(
            crosses(box, start, end) for square in _crossed_squares(start, end) for box in self._boxes.get(square, ())
        )

    def met(self, start: Point, end: Point) -> int:
        """How many lines and texts the line from `start` to `end` runs over."""
        met: set[object] = set()
        for square in _crossed_squares(start, end):
            met |= {box for box in self._boxes.get(square, ()) if crosses(box, start, end)}
            met |= {line for line in self._lines.get(square, ()) if _meet(start, end, *line)}
        return len(met)

    def first(self, spots: Iterable[Box], at: Point | None = None) -> Box | None:
        """The first free spot, clear of lines if any is; None where all are taken. With `at`, the way from there to
        the spot runs over no other lettering. What is given is taken."""
        proposed = list(spots)
        for off_lines in (True, False):
            for box in proposed:
                if self.free(box, off_lines) and (at is None or self.is_clear_line(at, box.nearest(at))):
                    self.take(box)
                    return box
        return None


def around(point: Point, width: float, height: float, clear: float = 0.0) -> Iterator[Box]:
    """Boxes about `point`, nearer ones first; `clear` is how far from it they begin."""
    for reach in _REACHES:
        for dx, dy in _DIRECTIONS:
            out = reach + clear
            x = point[0] + out * dx + width / 2 * _sign(dx)
            y = point[1] + out * dy + height / 2 * _sign(dy)
            yield box_about((x, y), width, height)


def _sign(share: float) -> float:
    return 0.0 if abs(share) < 0.3 else math.copysign(1.0, share)


def crosses(box: Box, start: Point, end: Point) -> bool:
    """Does the line from `start` to `end` run through the inside of `box`? (Clipping by Liang and Barsky, 1984.)"""
    (x, y), dx, dy = start, end[0] - start[0], end[1] - start[1]
    enter, leave = 0.0, 1.0
    for step, room in ((-dx, x - box.left), (dx, box.right - x), (-dy, y - box.bottom), (dy, box.top - y)):
        if abs(step) < 1e-12:
            if room <= 0:
                return False
            continue
        share = room / step
        if step < 0:
            enter = max(enter, share)
        else:
            leave = min(leave, share)
        if enter >= leave:
            return False
    return True


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Do the lines from `a` to `b` and from `c` to `d` cross?"""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def _squares(box: Box) -> Iterator[tuple[int, int]]:
    for column in range(math.floor(box.left / _SQUARE), math.floor(box.right / _SQUARE) + 1):
        for row in range(math.floor(box.bottom / _SQUARE), math.floor(box.top / _SQUARE) + 1):
            yield column, row


def _crossed_squares(start: Point, end: Point) -> Iterator[tuple[int, int]]:
    """The squares a line runs through, in steps of at most one square in the longer direction."""
    count = max(1, math.ceil(math.dist(start, end) / _SQUARE))
    seen: set[tuple[int, int]] = set()
    for index in range(count):
        one, other = _between(start, end, index / count), _between(start, end, (index + 1) / count)
        box = Box(min(one[0], other[0]), min(one[1], other[1]), max(one[0], other[0]), max(one[1], other[1]))
        for square in _squares(box):
            if square not in seen:
                seen.add(square)
                yield square


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
