"""Where the center lines of two walls meet: ends that reach the other wall's body, and lines that cross."""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import pairwise

from compliance.facts.geometry.wall_plan import WallLine
from compliance.model.lines import Line, Point, Straight

_SLACK = 1e-6
_PLACES = 6
"""Decimals of a metre to which places are compared by how close the lines come."""


def body_gap(point: Point, wall: WallLine) -> tuple[float, float]:
    """Station of the place on a wall's center line nearest to `point`, and how far the point lies from the body of the
    wall, which is as wide as the wall is thick and cut square at its ends [m]; zero within it."""
    s, distance = wall.line.nearest(point)
    if _SLACK < s < wall.line.length - _SLACK:
        return s, max(distance - wall.thickness / 2, 0.0)
    ux, uy = wall.line.direction(s)
    out = -1.0 if s <= _SLACK else 1.0
    dx, dy = (a - b for a, b in zip(point, wall.line.point(s), strict=True))
    along, across = max(out * (dx * ux + dy * uy), 0.0), abs(dx * uy - dy * ux)
    return s, math.hypot(along, max(across - wall.thickness / 2, 0.0))


@lru_cache(maxsize=4096)
def find_meetings(one: WallLine, other: WallLine, gap: float) -> tuple[tuple[float, float], ...]:
    """Stations on both walls where they meet: where an end of one comes within `gap` [m] of the body of the other, or
    where their lines cross. Of places nearer to one another than the walls are thick, the one where the lines come
    closest."""
    reach, most = max(one.thickness, other.thickness), gap + _SLACK * max(one.thickness, other.thickness)
    places: list[tuple[float, float]] = []
    for t in (0.0, other.line.length):
        s, apart = body_gap(other.line.point(t), one)
        if apart <= most:
            places.append((s, t))
    for s in (0.0, one.line.length):
        t, apart = body_gap(one.line.point(s), other)
        if apart <= most:
            places.append((s, t))
    places += _crossings(one.line, other.line)
    found: list[tuple[float, float]] = []
    for s, t in sorted(places, key=lambda place: round(_apart(one.line, other.line, *place), _PLACES)):
        if all(abs(s - a) > reach or abs(t - b) > reach for a, b in found):
            found.append((s, t))
    return tuple(found)


def _apart(one: Line, other: Line, s: float, t: float) -> float:
    return math.dist(one.point(s), other.point(t))


def _crossings(one: Line, other: Line) -> list[tuple[float, float]]:
    """Stations where two lines cross. Arcs are walked in chords of at most 5 degrees, then refined."""
    crossings = []
    for s0, s1 in _chords(one):
        a, b = one.point(s0), one.point(s1)
        for t0, t1 in _chords(other):
            shares = _cross(a, b, other.point(t0), other.point(t1))
            if shares is not None:
                s = s0 + shares[0] * (s1 - s0)
                crossings.append((s, other.nearest(one.point(s))[0]))
    return crossings


def _chords(line: Line) -> list[tuple[float, float]]:
    if isinstance(line, Straight):
        return [(0.0, line.length)]
    count = math.ceil(abs(line.sweep) / math.radians(5))
    marks = [line.length * index / count for index in range(count + 1)]
    return list(pairwise(marks))


def _cross(a: Point, b: Point, c: Point, d: Point) -> tuple[float, float] | None:
    (rx, ry), (qx, qy) = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
    cross = rx * qy - ry * qx
    if abs(cross) < 1e-12:
        return None
    u = ((c[0] - a[0]) * qy - (c[1] - a[1]) * qx) / cross
    v = ((c[0] - a[0]) * ry - (c[1] - a[1]) * rx) / cross
    return (u, v) if 0 <= u <= 1 and 0 <= v <= 1 else None
