"""The walls that brace the building along their length: their solid lengths in the plan, and the lines they make."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial
from itertools import chain, pairwise

from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.wall_facts import WallView, ends_of_section
from compliance.facts.mechanics.lateral.in_plane import stiffness_over_modulus
from compliance.facts.mechanics.lateral.torsion import Panel
from compliance.model.lines import Circular, Point
from compliance.record import record

_PARALLEL = math.radians(0.001)
_FINE = math.radians(5)


@record
class Solid:
    """A solid length of a bracing wall: which of the wall's columns it is, how long, and as a panel in the plan with
    its stiffness over the modulus of elasticity [m]."""

    wall: str
    index: int
    length: float
    panel: Panel


@record
class Extent:
    """The building seen along a direction [rad]: how wide it is across it, how long along it, and its middle [m]."""

    direction: float
    across: float
    along: float
    middle: tuple[float, float]


def house_walls(building: Building, need: Needs) -> tuple[str, ...]:
    """Walls of the building itself, garden walls left out; a wall that does not say which is one lacks."""
    found = []
    for mark in building.walls:
        use = need.field(building.project.walls[mark].use, "walls", mark, "use")
        if use != "garden":
            found.append(mark)
    return tuple(found)


def bracing_walls(building: Building, need: Needs) -> tuple[str, ...]:
    """Of these, the walls that are counted on to brace."""
    return tuple(
        mark for mark in house_walls(building, need)
        if need.field(building.project.walls[mark].braces, "walls", mark, "braces")
    )  # fmt: skip


def chord(view: WallView) -> tuple[float, float]:
    """Direction of a wall from end to end, without regard to its sense [rad, 0 to below π], and its length [m]."""
    (x0, y0), (x1, y1) = view.place.line.start, view.place.line.end
    length = math.hypot(x1 - x0, y1 - y0)
    if view.closed:
        x1, y1 = (a + b for a, b in zip((x0, y0), view.place.line.direction(0.0), strict=True))
    angle = math.atan2(y1 - y0, x1 - x0) % math.pi
    return (0.0 if math.isclose(angle, math.pi) else angle), length


def solids(view: WallView, bending: float, shear: float) -> tuple[Solid, ...]:
    """The solid lengths of one wall. A curved wall counts along its chord, each length in proportion."""
    direction, length = chord(view)
    whole, thick = view.place.line.length, min(ends_of_section(view.wall))
    if length <= thick / 2:
        return ()
    found = []
    for index, (start, end) in enumerate(lengths(view)):
        solid = (end - start) * length / whole
        if solid <= 0:
            continue
        x, y = view.place.line.point((start + end) / 2)
        stiff = stiffness_over_modulus(view.place.height, solid, thick, bending, shear)
        found.append(Solid(view.mark, index, solid, Panel(x, y, direction, stiff)))
    return tuple(found)


def solids_of(building: Building, marks: Sequence[str]) -> list[Solid]:
    """The solid lengths of walls but for those in a ring, by the coefficients of piers; each wall worked out once."""
    bending, shear = building.screening["pier_bending"].value, building.screening["pier_shear"].value
    views = [building.views[mark] for mark in marks]
    each = [
        building.cached(("solids", view.mark), partial(solids, view, bending, shear))
        for view in views if not view.placed.stretch.ring
    ]  # fmt: skip
    return list(chain.from_iterable(each))


def lengths(view: WallView) -> list[tuple[float, float]]:
    """Start and end of each solid length, in the order of the wall's columns: openings that touch are one."""
    whole = view.place.line.length
    edges: list[tuple[float, float]] = []
    for hole in view.opened.holes:
        start, end = hole.start, min(hole.end, whole)
        if edges and start <= edges[-1][1]:
            edges[-1] = (edges[-1][0], max(edges[-1][1], end))
        else:
            edges.append((start, end))
    marks = [0.0, *(s for edge in edges for s in edge), whole]
    return list(zip(marks[::2], marks[1::2], strict=True))


def extent(views: Sequence[WallView], direction: float) -> Extent:
    """Of the walls' centre lines with half the greatest thickness all round; arcs by points along them."""
    points = [point for view in views for point in points_along(view)]
    half = max(view.place.thickness for view in views) / 2
    c, s = math.cos(direction), math.sin(direction)
    along = [x * c + y * s for x, y in points]
    across = [y * c - x * s for x, y in points]
    u, v = (min(along) + max(along)) / 2, (min(across) + max(across)) / 2
    return Extent(
        direction,
        max(across) - min(across) + 2 * half,
        max(along) - min(along) + 2 * half,
        (u * c - v * s, u * s + v * c),
    )


def points_along(view: WallView) -> list[Point]:
    """Points along a wall's center line, both ends among them, an arc's no farther apart than five degrees."""
    line = view.place.line
    parts = max(8, math.ceil(abs(line.sweep) / _FINE - 1e-6)) if isinstance(line, Circular) else 8
    return [line.point(line.length * part / parts) for part in range(parts + 1)]


def directions(solid: Sequence[Solid]) -> tuple[float, ...]:
    """Directions to look along: that of every bracing wall, one for those that are parallel."""
    found: list[float] = []
    for direction in sorted(one.panel.direction for one in solid):
        if not any(turned(direction, one) <= _PARALLEL for one in (*found[:1], *found[-1:])):
            found.append(direction)
    return tuple(found)


@record
class Line:
    """Bracing walls in one line across a direction: it braces what stands between two places across it [m], and `parts`
    are its solid lengths, each with its share of the line by stiffness."""

    low: float
    high: float
    parts: tuple[tuple[Solid, float], ...]

    @property
    def width(self) -> float:
        return max(self.high - self.low, 0.0)

    def weight_braced(self, lumps: Sequence[Lump], first: bool, last: bool) -> float:
        """Of weights spread over the places they reach across the direction, what stands between its bounds [N]; the
        outermost lines take all beyond."""
        low, high = (-math.inf if first else self.low), (math.inf if last else self.high)
        return math.fsum(one.within(low, high) for one in lumps)


@record
class Lump:
    """A weight [N] spread evenly between two places across a direction [m]."""

    low: float
    high: float
    weight: float

    def within(self, low: float, high: float) -> float:
        if self.high - self.low <= 1e-9:
            return self.weight if low <= self.low < high else 0.0
        return self.weight * max(min(self.high, high) - max(self.low, low), 0.0) / (self.high - self.low)


def lump_of(view: WallView, weight: float, direction: float) -> Lump:
    """The weight of a wall over what its center line reaches across a direction."""
    c, s = math.cos(direction), math.sin(direction)
    across = [y * c - x * s for x, y in points_along(view)]
    return Lump(min(across), max(across), weight)


def bracing_lines(solid: Sequence[Solid], seen: Extent, within: float, same: float) -> tuple[Line, ...]:
    """The lines of bracing along a direction, for a roof that does not turn as one.

    Walls within the angle `within` of the direction take part; those whose middles lie within `same` of the next
    across it make one line, from whichever side they are counted. Each line braces half way to the next, the outermost
    to the building's edge.
    """
    c, s = math.cos(seen.direction), math.sin(seen.direction)
    part = [one for one in solid if turned(one.panel.direction, seen.direction) <= within * (1 + 1e-9)]
    placed = sorted(((one.panel.y * c - one.panel.x * s, one) for one in part), key=lambda pair: pair[0])
    lines: list[list[tuple[float, Solid]]] = []
    for place, one in placed:
        if lines and place - lines[-1][-1][0] <= same:
            lines[-1].append((place, one))
        else:
            lines.append([(place, one)])
    centres = [math.fsum(place for place, _ in line) / len(line) for line in lines]
    middle = seen.middle[1] * c - seen.middle[0] * s
    edges = [middle - seen.across / 2, *((a + b) / 2 for a, b in pairwise(centres)),
             middle + seen.across / 2]  # fmt: skip
    found = []
    for index, line in enumerate(lines):
        stiff = math.fsum(one.panel.stiffness for _, one in line)
        parts = tuple((one, one.panel.stiffness / stiff) for _, one in line)
        found.append(Line(edges[index], edges[index + 1], parts))
    return tuple(found)


def turned(one: float, other: float) -> float:
    """The angle between two directions without regard to their sense [rad]."""
    apart = abs(one - other) % math.pi
    return min(apart, math.pi - apart)
