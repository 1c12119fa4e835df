"""What closes the corners: walls are described by centre lines, so two that end in one point leave a notch outside."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from compliance.drawings.common.regions import Polygon, left_of, shifted
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.lines import Line, Point
from compliance.record import record

_STRAIGHT_ON = math.radians(2)
_LONGEST_POINT = 1.5
"""A mitred corner longer than this share of the mean thickness is cut off square."""


@record
class _End:
    """The end of a wall: its point, the direction into the wall, its thickness."""

    point: Point
    into: Point
    thickness: float

    def side(self, sign: float) -> Point:
        """The corner of the end: `sign` 1 to the left of the direction into the wall."""
        return shifted(self.point, -self.into[1], self.into[0], sign * self.thickness / 2)


def joins(views: Mapping[str, WallView]) -> list[Polygon]:
    """Patches that complete the walls where an end meets an end, or stops short of the wall it runs against."""
    return [patch for mark, view in views.items() for patch in _of_wall(mark, view, views)]


def _of_wall(mark: str, view: WallView, views: Mapping[str, WallView]) -> Iterator[Polygon]:
    for support in view.supports:
        other = views.get(support.by)
        if other is None:
            continue
        point = view.place.line.point(support.s)
        t, _ = other.place.line.nearest(point)
        here, there = _end(view, support.s, other), _end(other, t, view)
        if here and there:
            if mark < support.by and (corner := _corner(here, there)):
                yield corner
        elif here and (patch := _run_on(here, other.place.line, t)):
            yield patch


def _end(view: WallView, s: float, other: WallView) -> _End | None:
    """The end of the wall near station `s`, if one lies there."""
    line, reach = view.place.line, (view.place.thickness + other.place.thickness) / 2
    if min(s, line.length - s) > reach:
        return None
    at_start = s <= line.length - s
    station = 0.0 if at_start else line.length
    dx, dy = line.direction(station)
    return _End(line.point(station), (dx, dy) if at_start else (-dx, -dy), view.place.thickness)


def _corner(one: _End, other: _End) -> Polygon | None:
    """The wedge between the ends outside the corner, up to where the outer faces meet."""
    cross = one.into[0] * other.into[1] - one.into[1] * other.into[0]
    dot = one.into[0] * other.into[0] + one.into[1] * other.into[1]
    angle = math.atan2(abs(cross), dot)
    if angle > math.pi - _STRAIGHT_ON or angle < _STRAIGHT_ON:
        return None
    turn = math.copysign(1.0, cross)
    near, far = one.side(-turn), other.side(turn)
    tip = _meeting(near, one.into, far, other.into)
    short = math.dist(tip, one.point) <= _LONGEST_POINT * (one.thickness + other.thickness) / 2
    if short and _beyond(tip, near, one) and _beyond(tip, far, other):
        return Polygon((one.point, near, tip, far, other.point))
    return Polygon((one.point, near, far, other.point))


def _beyond(tip: Point, corner: Point, end: _End) -> bool:
    """Does `tip` lie past the end of the wall, not back along its face?"""
    return (tip[0] - corner[0]) * end.into[0] + (tip[1] - corner[1]) * end.into[1] <= 0


def _meeting(p: Point, u: Point, q: Point, v: Point) -> Point:
    """Where the lines through `p` along `u` and through `q` along `v` meet."""
    cross = u[0] * v[1] - u[1] * v[0]
    s = ((q[0] - p[0]) * v[1] - (q[1] - p[1]) * v[0]) / cross
    return shifted(p, *u, s)


def _run_on(end: _End, line: Line, t: float) -> Polygon | None:
    """From the end of a wall to the centre line of the one it runs against."""
    nx, ny = left_of(line, t)
    towards = -(end.into[0] * nx + end.into[1] * ny)
    q = line.point(t)
    if abs(towards) < math.sin(_STRAIGHT_ON):
        return None
    short = ((q[0] - end.point[0]) * nx + (q[1] - end.point[1]) * ny) / towards
    if short <= 1e-6:
        return None
    left, right = end.side(1.0), end.side(-1.0)
    return Polygon((left, right, shifted(right, *end.into, -short), shifted(left, *end.into, -short)))
