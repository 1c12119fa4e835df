"""How loads pass round openings into the piers beside them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cached_property

from compliance.facts.mechanics.beams import Point
from compliance.facts.mechanics.wall_weight import SAME, Elevation
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, need_not_negative
from compliance.steps import Source

PRACTICE = Source("half to each side; common practice, no source")


@record
class PierLoad:
    """The solid wall between two openings or ends, and what it carries [N].

    `on_top`: load on the wall straight above it. `opening_top` and `opening_weight`: its halves of the load on
    the wall over the openings beside it and of the wall above them. `points`: forces set on the wall.
    `weight`: its own.
    """

    left: float
    right: float
    on_top: float
    opening_top: float
    opening_weight: float
    points: float
    weight: float

    @property
    def width(self) -> float:
        """[m]. Zero beside an opening that reaches the wall's end: its load has nothing to stand on there."""
        return self.right - self.left

    @property
    def from_above(self) -> float:
        """All but its own weight [N]; counted in full at every level of the pier."""
        return self.on_top + self.opening_top + self.opening_weight + self.points

    @cached_property
    def at_base(self) -> Solved:
        return load_on_pier(self.on_top, self.opening_top, self.opening_weight, self.points, self.weight)


@record
class Shared:
    """Piers from left to right, and the weight of the wall below sills [N], which goes straight to the footing."""

    piers: tuple[PierLoad, ...]
    below_sills: tuple[float, ...]

    @property
    def total(self) -> float:
        return math.fsum([*(pier.at_base for pier in self.piers), *self.below_sills])


def share_loads(wall: Elevation, line_load: float, points: Sequence[Point] = ()) -> Shared:
    """An even load on the wall's top [N/m] and forces set on it, shared among its piers; nothing is lost.

    Half of what stands over an opening goes to each side; a force over an opening goes by its distance to both
    sides. Openings above or touching one another count as one, as wide as both, from the lowest sill up.
    Raises ValueError for loads below zero or forces off the wall.
    """
    need_not_negative(line_load=line_load)
    for point in points:
        need_not_negative(force=point.force)
        if not 0 <= point.at <= wall.length * (1 + 1e-12):
            raise ValueError(f"a force at {point.at} m is off the wall of {wall.length} m")
    high = wall.profile.height
    gaps = _gaps(wall)
    over = [((right - left) * line_load, wall.weight(left, right, sill, high)) for left, right, sill in gaps]
    edges = [0.0, *(edge for left, right, _ in gaps for edge in (left, right)), wall.length]
    piers = []
    for index in range(len(gaps) + 1):
        left, right = edges[2 * index], max(edges[2 * index + 1], edges[2 * index])
        beside = over[max(index - 1, 0) : index + 1]
        piers.append(
            PierLoad(
                left,
                right=right,
                on_top=line_load * (right - left),
                opening_top=math.fsum(top for top, _ in beside) / 2,
                opening_weight=math.fsum(weight for _, weight in beside) / 2,
                points=math.fsum(point.force * _share(min(point.at, wall.length), index, edges) for point in points),
                weight=wall.weight(left, right, 0.0, high),
            )
        )
    return Shared(tuple(piers), tuple(wall.weight(left, right, 0.0, sill) for left, right, sill in gaps))


def _gaps(wall: Elevation) -> list[tuple[float, float, float]]:
    """Left, right and lowest sill of each opening or group of openings, from left to right."""
    slack = SAME * wall.length
    gaps: list[tuple[float, float, float]] = []
    for opening in sorted(wall.openings, key=lambda each: each.left):
        left, right, sill = opening.left, opening.right, opening.sill
        if right >= wall.length - slack:
            right = wall.length
        if gaps and left <= gaps[-1][1] + slack:
            before = gaps.pop()
            left, right, sill = before[0], max(before[1], right), min(before[2], sill)
        gaps.append((left, right, sill))
    return gaps


def _share(at: float, pier: int, edges: Sequence[float]) -> float:
    """Share of a force that this pier takes: all of it between its own edges, else by the lever of the gap."""
    left, right = edges[2 * pier], edges[2 * pier + 1]
    if left < at < right or (pier == 0 and at <= left < right) or (at >= right > left and pier == len(edges) // 2 - 1):
        return 1.0
    if pier and edges[2 * pier - 1] <= at <= left:
        return (at - edges[2 * pier - 1]) / (left - edges[2 * pier - 1])
    if 2 * pier + 2 < len(edges) and right <= at <= edges[2 * pier + 2]:
        return (edges[2 * pier + 2] - at) / (edges[2 * pier + 2] - right)
    return 0.0


def pier_weight_above(wall: Elevation, pier: PierLoad, up: float) -> float:
    """The pier's own weight [N] above a height `up` [m] from the wall's base."""
    return wall.weight(pier.left, pier.right, up, wall.profile.height)


load_on_pier = equation(
    "Load on the pier", "on_top + opening_top + opening_weight + points + weight",
    Symbol("N", "force", "load at the base"), PRACTICE,
    on_top=Symbol("P_1", "force", "load on top of the pier"),
    opening_top=Symbol("P_2", "force", "half the load on top over the openings beside it"),
    opening_weight=Symbol("P_3", "force", "half the wall above the openings beside it"),
    points=Symbol("P_4", "force", "single forces"), weight=Symbol("W", "force", "own weight"),
)  # fmt: skip

EQUATIONS = (load_on_pier,)
