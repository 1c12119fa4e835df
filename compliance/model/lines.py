"""Lines of walls in the plan: straight runs and circular arcs, in metres."""

from __future__ import annotations

import math

from compliance.model.walls import Wall
from compliance.record import record
from compliance.units import Measure

Point = tuple[float, float]
_QUARTER = math.pi / 2


@record
class Straight:
    """A straight centre line. Stations `s` run from its start, 0 to `length`."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        return math.dist(self.start, self.end)

    def point(self, s: float) -> Point:
        share = s / self.length
        (x0, y0), (x1, y1) = self.start, self.end
        return x0 + share * (x1 - x0), y0 + share * (y1 - y0)

    def direction(self, s: float) -> Point:
        (x0, y0), (x1, y1) = self.start, self.end
        length = self.length
        return (x1 - x0) / length, (y1 - y0) / length

    def nearest(self, point: Point) -> tuple[float, float]:
        """Station of the place on the line nearest to `point`, and the distance to it."""
        (x0, y0), (x1, y1) = self.start, self.end
        dx, dy, length = x1 - x0, y1 - y0, math.dist(self.start, self.end)
        s = min(max((point[0] - x0) * (dx / length) + (point[1] - y0) * (dy / length), 0.0), length)
        share = s / length
        return s, math.dist((x0 + share * dx, y0 + share * dy), point)

    def box(self) -> tuple[float, float, float, float]:
        (x0, y0), (x1, y1) = self.start, self.end
        return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


@record
class Circular:
    """An arc of a circle: `sweep` is the signed angle in radians from `first` (counter-clockwise above 0)."""

    centre: Point
    radius: float
    first: float
    sweep: float

    @property
    def length(self) -> float:
        return abs(self.sweep) * self.radius

    @property
    def start(self) -> Point:
        return self.point(0.0)

    @property
    def end(self) -> Point:
        return self.point(self.length)

    def _angle(self, s: float) -> float:
        return self.first + math.copysign(s / self.radius, self.sweep)

    def point(self, s: float) -> Point:
        angle = self._angle(s)
        return self.centre[0] + self.radius * math.cos(angle), self.centre[1] + self.radius * math.sin(angle)

    def direction(self, s: float) -> Point:
        angle, turn = self._angle(s), math.copysign(1.0, self.sweep)
        return -turn * math.sin(angle), turn * math.cos(angle)

    def nearest(self, point: Point) -> tuple[float, float]:
        """Station of the place on the arc nearest to `point`, and the distance to it."""
        angle = math.atan2(point[1] - self.centre[1], point[0] - self.centre[0])
        turned = (angle - self.first) * math.copysign(1.0, self.sweep) % (2 * math.pi)
        s = turned * self.radius
        if s > self.length:
            to_start, to_end = math.dist(self.start, point), math.dist(self.end, point)
            return (0.0, to_start) if to_start <= to_end else (self.length, to_end)
        return s, abs(math.dist(self.centre, point) - self.radius)

    def turned(self) -> Circular:
        """The same arc from its other end."""
        return Circular(self.centre, self.radius, self.first + self.sweep, -self.sweep)

    def box(self) -> tuple[float, float, float, float]:
        """Of its ends and of each place where it turns back along an axis."""
        (cx, cy), r = self.centre, self.radius
        (x0, y0), (x1, y1) = self.start, self.end
        low, high = sorted((self.first, self.first + self.sweep))
        turns = range(math.ceil(low / _QUARTER), math.floor(high / _QUARTER) + 1)
        eastward = [cx + r * (1, 0, -1, 0)[turn % 4] for turn in turns if turn % 2 == 0]
        northward = [cy + r * (0, 1, 0, -1)[turn % 4] for turn in turns if turn % 2]
        return min(x0, x1, *eastward), min(y0, y1, *northward), max(x0, x1, *eastward), max(y0, y1, *northward)


Line = Straight | Circular


def arc_through(start: Point, through: Point, end: Point) -> Circular | None:
    """The arc from `start` through `through` to `end`; None where the three lie on one straight line.

    Circle through three points by the perpendicular bisectors.
    """
    (ax, ay), (bx, by), (cx, cy) = start, through, end
    bx, by, cx, cy = bx - ax, by - ay, cx - ax, cy - ay
    double = 2 * (bx * cy - by * cx)
    size = max(math.hypot(bx, by), math.hypot(cx, cy), math.hypot(cx - bx, cy - by))
    if abs(double) <= 1e-9 * size * size:
        return None
    b2, c2 = bx * bx + by * by, cx * cx + cy * cy
    ux, uy = (cy * b2 - by * c2) / double, (bx * c2 - cx * b2) / double
    centre, radius = (ax + ux, ay + uy), math.hypot(ux, uy)
    first = math.atan2(-uy, -ux)
    turn = 1.0 if double > 0 else -1.0
    last = math.atan2(cy - uy, cx - ux)
    sweep = ((last - first) * turn) % (2 * math.pi)
    return Circular(centre, radius, first, turn * sweep)


def angle_between(one: Point, other: Point) -> float:
    """The angle between two directions without regard to their sense, 0 to π/2."""
    return math.acos(min(1.0, abs(one[0] * other[0] + one[1] * other[1])))


def line_of(wall: Wall) -> Line | None:
    """The line of a wall; None where its points coincide, lie closer than half its thickness, or make no arc."""
    line: Line | None
    if wall.arc:
        line = arc_through(_metres(wall.arc.start), _metres(wall.arc.through), _metres(wall.arc.end))
    else:
        assert wall.run is not None
        line = Straight(_metres(wall.run.start), _metres(wall.run.end))
    base = wall.thickness_base or wall.thickness
    assert base is not None
    return line if line is not None and line.length >= base.si / 2 else None


def _metres(point: list[Measure]) -> Point:
    x, y = point
    return x.si, y.si
