"""The outline of regions laid over each other: joins come out clean, arcs stay arcs."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from compliance.drawings.common.regions import Region
from compliance.model.lines import Circular, Line, Point, Straight

_ON = 1e-6
"""A point this near to a line lies on it, in m."""
_BESIDE = 1e-5
"""How far beside a line it is asked what lies there, in m."""
_SHORTEST = 2e-5


def outline(regions: Sequence[Region], holes: Sequence[Region] = ()) -> list[Line]:
    """The edges of all that lies in some region and in no hole, each with the solid on its left, none twice.

    Every side is cut where it meets another; a piece is an edge when just one side of it is solid. Where sides of two
    parts fall together, the piece is that of the first.
    """
    parts = [*regions, *holes]
    sides = [[(side, side.box()) for side in part.sides] for part in parts]
    edges = []
    for index, near in enumerate(_neighbours(parts)):
        around = sorted((index, *near))
        solid = [parts[place] for place in around if place < len(regions)]
        empty = [parts[place] for place in around if place >= len(regions)]
        for side, box in sides[index]:
            others = [(other, place < index) for place in near for other, reach in sides[place] if _touch(box, reach)]
            earlier = [other for other, before in others if before]
            for piece in _pieces(side, [other for other, _ in others]):
                edge = _edge(piece, solid, empty)
                if edge is not None and not _lies_on(edge, earlier):
                    edges.append(edge)
    return edges


def _lies_on(edge: Line, others: Sequence[Line]) -> bool:
    places = [edge.point(share * edge.length) for share in (0.25, 0.5, 0.75)]
    return any(all(other.nearest(place)[1] <= _ON for place in places) for other in others)


def _neighbours(parts: Sequence[Region]) -> list[list[int]]:
    """For each part those whose boxes touch its own: a sweep from left to right."""
    boxes = [part.box for part in parts]
    near: list[list[int]] = [[] for _ in parts]
    open_: list[int] = []
    for index in sorted(range(len(parts)), key=lambda place: boxes[place][0]):
        open_ = [other for other in open_ if boxes[other][2] >= boxes[index][0] - _ON]
        for other in open_:
            if _touch(boxes[index], boxes[other]):
                near[index].append(other)
                near[other].append(index)
        open_.append(index)
    return [sorted(places) for places in near]


def _touch(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    """Do two boxes (left, bottom, right, top) come within reach of each other?"""
    return (
        one[0] <= other[2] + _ON and other[0] <= one[2] + _ON and one[1] <= other[3] + _ON and other[1] <= one[3] + _ON
    )


def _pieces(side: Line, others: Sequence[Line]) -> Iterator[Line]:
    stations = {0.0, side.length}
    for other in others:
        for point in (*_meeting_points(side, other), other.point(0.0), other.point(other.length)):
            s, off = side.nearest(point)
            if off <= _ON and other.nearest(point)[1] <= _ON:
                stations.add(s)
    for start, end in pairwise(sorted(stations)):
        if end - start > _SHORTEST:
            yield _part(side, start, end)


def _part(line: Line, start: float, end: float) -> Line:
    if isinstance(line, Straight):
        return Straight(line.point(start), line.point(end))
    turn = math.copysign(1.0, line.sweep) / line.radius
    return Circular(line.centre, line.radius, line.first + turn * start, turn * (end - start))


def reverse(line: Line) -> Line:
    if isinstance(line, Straight):
        return Straight(line.end, line.start)
    return line.turned()


def _edge(piece: Line, solid: Sequence[Region], empty: Sequence[Region]) -> Line | None:
    """The piece with the solid on its left; None where both sides are alike."""
    middle = piece.length / 2
    (x, y), (dx, dy) = piece.point(middle), piece.direction(middle)

    def filled(point: Point) -> bool:
        return any(one.holds(point) for one in solid) and not any(one.holds(point) for one in empty)

    left, right = filled((x - _BESIDE * dy, y + _BESIDE * dx)), filled((x + _BESIDE * dy, y - _BESIDE * dx))
    if left == right:
        return None
    return piece if left else reverse(piece)


def _meeting_points(one: Line, other: Line) -> list[Point]:
    """Where the straight lines or circles that two lines lie on meet."""
    if isinstance(one, Straight):
        return _straights(one, other) if isinstance(other, Straight) else _straight_and_circle(one, other)
    return _straight_and_circle(other, one) if isinstance(other, Straight) else _circles(one, other)


def _straights(one: Straight, other: Straight) -> list[Point]:
    (ux, uy), (vx, vy) = one.direction(0.0), other.direction(0.0)
    cross = ux * vy - uy * vx
    if abs(cross) < 1e-9:
        return []
    wx, wy = other.start[0] - one.start[0], other.start[1] - one.start[1]
    s = (wx * vy - wy * vx) / cross
    return [(one.start[0] + s * ux, one.start[1] + s * uy)]


def _straight_and_circle(line: Straight, arc: Circular) -> list[Point]:
    (ux, uy), (x, y) = line.direction(0.0), line.start
    wx, wy = x - arc.centre[0], y - arc.centre[1]
    along = wx * ux + wy * uy
    room = along * along - (wx * wx + wy * wy - arc.radius * arc.radius)
    if room < 0:
        return []
    return [(x + s * ux, y + s * uy) for s in (-along - math.sqrt(room), -along + math.sqrt(room))]


def _circles(one: Circular, other: Circular) -> list[Point]:
    dx, dy = other.centre[0] - one.centre[0], other.centre[1] - one.centre[1]
    apart = math.hypot(dx, dy)
    if apart < _ON:
        return []
    along = (apart * apart + one.radius**2 - other.radius**2) / (2 * apart)
    room = one.radius**2 - along * along
    if room < 0:
        return []
    off = math.sqrt(room)
    x, y = one.centre[0] + along * dx / apart, one.centre[1] + along * dy / apart
    return [(x - off * dy / apart, y + off * dx / apart), (x + off * dy / apart, y - off * dx / apart)]
