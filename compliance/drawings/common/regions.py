"""Parts of the plan as regions with true arcs, in metres: lengths of wall, corners, buttresses."""

from __future__ import annotations

import math

from compliance.model.lines import Circular, Line, Point, Straight
from compliance.record import record

_CHORD = math.radians(3)


@record
class Polygon:
    """A region with straight sides, its corners in order."""

    corners: tuple[Point, ...]

    @property
    def sides(self) -> tuple[Line, ...]:
        ends = (*self.corners[1:], self.corners[0])
        return tuple(Straight(a, b) for a, b in zip(self.corners, ends, strict=True) if math.dist(a, b) > 1e-9)

    @property
    def box(self) -> tuple[float, float, float, float]:
        return box_of(self.corners)

    def points(self) -> list[Point]:
        return list(self.corners)

    def holds(self, point: Point) -> bool:
        """Is `point` inside? By the crossings of a ray with the sides."""
        return holds(self.corners, point)


@record
class Sector:
    """A length of a curved wall: between two radii, from the angle `first` over `sweep`. `inner` is zero where the
    wall is thicker than its curve is wide."""

    centre: Point
    inner: float
    outer: float
    first: float
    sweep: float

    @property
    def sides(self) -> tuple[Line, ...]:
        outside = Circular(self.centre, self.outer, self.first, self.sweep)
        if self.inner <= 0:
            return outside, Straight(outside.end, self.centre), Straight(self.centre, outside.start)
        inside = Circular(self.centre, self.inner, self.first + self.sweep, -self.sweep)
        return outside, Straight(outside.end, inside.start), inside, Straight(inside.end, outside.start)

    @property
    def box(self) -> tuple[float, float, float, float]:
        (x, y), r = self.centre, self.outer
        return x - r, y - r, x + r, y + r

    def points(self) -> list[Point]:
        return [point for side in self.sides for point in chords(side)[:-1]]

    def holds(self, point: Point) -> bool:
        if not self.inner < math.dist(point, self.centre) < self.outer:
            return False
        angle = math.atan2(point[1] - self.centre[1], point[0] - self.centre[0])
        turned = (angle - self.first) * math.copysign(1.0, self.sweep) % (2 * math.pi)
        return turned < abs(self.sweep)


Region = Polygon | Sector


def length_of_wall(line: Line, start: float, end: float, thickness: float) -> Region:
    """The wall from station `start` to `end`, of an even thickness about its centre line."""
    half = thickness / 2
    if isinstance(line, Straight):
        (nx, ny), a, b = left_of(line, 0.0), line.point(start), line.point(end)
        return Polygon(
            (shifted(a, nx, ny, -half), shifted(b, nx, ny, -half), shifted(b, nx, ny, half), shifted(a, nx, ny, half))
        )
    turn = math.copysign(1.0, line.sweep)
    first = line.first + turn * start / line.radius
    inner = max(line.radius - half, 0.0)
    return Sector(
        line.centre, inner=inner, outer=line.radius + half, first=first, sweep=turn * (end - start) / line.radius
    )


def left_of(line: Line, s: float) -> Point:
    """The direction to the left of the line at station `s`."""
    dx, dy = line.direction(s)
    return -dy, dx


def shifted(point: Point, dx: float, dy: float, by: float) -> Point:
    return point[0] + by * dx, point[1] + by * dy


def chords(line: Line) -> list[Point]:
    """Points along a line, so close that the chords between them stay on it to the eye."""
    if isinstance(line, Straight):
        return [line.start, line.end]
    count = max(1, math.ceil(abs(line.sweep) / _CHORD))
    return [line.point(line.length * index / count) for index in range(count + 1)]


def outermost(region: Region) -> list[Point]:
    """The points that may lie farthest out along either axis: corners, and where an arc runs along an axis."""
    return [point for side in region.sides for point in (side.start, *_turning_points(side))]


def _turning_points(line: Line) -> list[Point]:
    if isinstance(line, Straight):
        return []
    turn = math.copysign(1.0, line.sweep)
    angles = [(quarter * math.pi / 2 - line.first) * turn % (2 * math.pi) for quarter in range(4)]
    return [line.point(angle * line.radius) for angle in angles if angle < abs(line.sweep)]


def holds(corners: tuple[Point, ...] | list[Point], point: Point) -> bool:
    """Is `point` inside the polygon? An even or odd number of sides crossed by a ray to the right tells."""
    x, y = point
    inside = False
    (x0, y0) = corners[-1]
    for x1, y1 in corners:
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
        x0, y0 = x1, y1
    return inside


def box_of(points: tuple[Point, ...] | list[Point]) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)
