"""Corners of the plan that turn inward, and how much of a side of the building stands open."""

from __future__ import annotations

import math
from collections.abc import Iterator

from compliance.facts.bracing.plan_sides import Side, sides
from compliance.facts.bracing.solid_lengths import bracing_walls, house_walls, points_along
from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import WallView
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step

_SQUARE = math.radians(48)
Point = tuple[float, float]

inward_share = equation(
    "Part of the plan beyond the corner, the lesser of both ways", "min(first / across, second / along)",
    Symbol("", "share"), "from the plan",
    first=Symbol("a", "length", "beyond the corner along one wall"),
    across=Symbol("A", "length", "whole plan that way"),
    second=Symbol("b", "length", "along the other"), along=Symbol("B", "length", "whole plan that way"),
)  # fmt: skip

open_of_side = equation(
    "Part of the side without a wall", "bare / side", Symbol("", "share"), "from the plan",
    bare=Symbol("l_o", "length", "where no wall stands"), side=Symbol("L", "length"),
)  # fmt: skip

EQUATIONS = (inward_share, open_of_side)


@record
class _Inward:
    """A corner that turns inward: the walls that meet there, its share of the plan, and whether a bracing wall runs on
    through it into the building."""

    marks: tuple[str, str]
    share: Solved
    braced: bool


def outside_sides(building: Building, need: Needs) -> tuple[Side, ...]:
    """The sides of the building; empty where a value lacks. Where no wall is an outside wall, `need` says so."""
    outside = _outside(building, need)
    braces = frozenset(bracing_walls(building, need))
    found = () if need.lacks or not outside else sides(outside, braces)
    if not found and not need.lacks:
        need.lack("the building has no outside wall")
    return found


def _outside(building: Building, need: Needs) -> list[WallView]:
    return [building.views[mark] for mark in house_walls(building, need)
            if building.project.walls[mark].use == "exterior"]  # fmt: skip


def open_share(building: Building, project: Subject) -> Fact:
    """The greatest part of any side of the building along which no wall stands."""
    need = Needs(project)
    found = outside_sides(building, need)
    if need.lacks:
        return need.lacking
    shares = [open_of_side.titled(f"Part of the side {one.name} without a wall")(one.open, one.length) for one in found]
    return need.worked(max(shares, key=float))


def re_entrant_share(building: Building, project: Subject) -> Fact:
    """The greatest part of the plan that stands beyond a corner that turns inward; zero without one."""
    return _greatest(building, project, braced=True)


def re_entrant_unbraced(building: Building, project: Subject) -> Fact:
    """The same of the corners through which no bracing wall runs on into the building."""
    return _greatest(building, project, braced=False)


def _greatest(building: Building, project: Subject, braced: bool) -> Fact:
    need = Needs(project)
    outside, braces = _outside(building, need), bracing_walls(building, need)
    if need.lacks:
        return need.lacking
    corners = [one for one in _inward(building, outside, frozenset(braces)) if braced or not one.braced]
    if not corners:
        none = Step(
            "Corners that turn inward" + ("" if braced else ", not braced"),
            formula="",
            given=(),
            result=Given("", "none", "word"),
            source=_PLAN,
        )
        return need.known(0.0, lambda: (none,))
    worst = max(corners, key=lambda one: float(one.share))
    says = "a bracing wall runs on through it" if worst.braced else "no bracing wall runs on through it"
    choice = Step(
        f"Corner of {worst.marks[0]} and {worst.marks[1]}",
        formula="",
        given=(),
        result=Given("", says, "word"),
        source=_PLAN,
    )
    return need.known(float(worst.share), lambda: (choice, worst.share.step()))


_PLAN = "from the plan"


def _inward(building: Building, outside: list[WallView], braces: frozenset[str]) -> Iterator[_Inward]:
    points = [point for view in outside for point in points_along(view)]
    for place, view in enumerate(outside):
        for other in outside[place + 1 :]:
            for corner, one, two in _corners(view, other):
                within = max(view.place.thickness, other.place.thickness)
                mid = (one[0] + two[0], one[1] + two[1])
                beyond = (corner[0] + within * mid[0], corner[1] + within * mid[1])
                behind = (corner[0] - within * mid[0], corner[1] - within * mid[1])
                if _inside(outside, beyond, mid) or not _inside(outside, behind, mid):
                    continue
                share = inward_share(
                    _reach(points, corner, one), _width(points, one), _reach(points, corner, two), _width(points, two)
                )
                yield _Inward(
                    (view.mark, other.mark),
                    share,
                    _runs_on(building, braces=braces, corner=corner, one=one, two=two, within=within),
                )


def _corners(view: WallView, other: WallView) -> Iterator[tuple[Point, Point, Point]]:
    """Where an end of one wall meets an end of another at a corner: the place, and the ways both walls leave it."""
    reach = max(view.place.thickness, other.place.thickness)
    for one in _ends(view):
        for two in _ends(other):
            if math.dist(one[0], two[0]) <= reach:
                turn = abs(math.atan2(one[1][0] * two[1][1] - one[1][1] * two[1][0],
                                      one[1][0] * two[1][0] + one[1][1] * two[1][1]))  # fmt: skip
                if _SQUARE <= turn <= math.pi - _SQUARE + 1e-9:
                    yield one[0], one[1], two[1]


def _ends(view: WallView) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
    """Both ends of a wall with the way it leaves each."""
    line = view.place.line
    near = min(line.length, 0.1)
    return (line.start, _option(line.start, line.point(near))), (
        line.end,
        _option(line.end, line.point(line.length - near)),
    )


def _option(start: Point, end: Point) -> Point:
    length = math.dist(start, end)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length


def _reach(points: list[Point], corner: Point, option: Point) -> float:
    return max((x - corner[0]) * option[0] + (y - corner[1]) * option[1] for x, y in points)


def _width(points: list[Point], option: Point) -> float:
    along = [x * option[0] + y * option[1] for x, y in points]
    return max(along) - min(along)


def _inside(outside: list[WallView], point: Point, option: Point) -> bool:
    """Whether most rays from the point cross outside walls an odd number of times; walls taken as chords of eighths.

    The rays lie on both sides of `option`, a way that goes with the building, so that a plan with a side left out is
    judged alike however it is turned or mirrored."""
    chords = [
        (line.point(line.length * part / 8), line.point(line.length * (part + 1) / 8))
        for line in (view.place.line for view in outside)
        for part in range(8)
    ]
    odd = sum(_crossings(chords, point, option, angle) % 2 for angle in _RAYS)
    return 2 * odd > len(_RAYS)


_RAYS = tuple(sign * math.radians(angle) for angle in (17.3, 52.1, 86.9, 121.7, 156.5) for sign in (1, -1))
"""Evenly all round, and along no line that plans are drawn on, so that none runs through a corner."""


def _crossings(chords: list[tuple[Point, Point]], point: Point, option: Point, angle: float) -> int:
    """How many chords a ray crosses that leaves the point at an angle to `option` [rad]."""
    c, s = math.cos(angle), math.sin(angle)
    ray = (option[0] * c - option[1] * s, option[0] * s + option[1] * c)
    count = 0
    for ends in chords:
        (u0, v0), (u1, v1) = (
            (dx * ray[0] + dy * ray[1], dy * ray[0] - dx * ray[1])
            for dx, dy in ((x - point[0], y - point[1]) for x, y in ends)
        )
        count += (v0 > 0) != (v1 > 0) and u0 - v0 * (u1 - u0) / (v1 - v0) > 0
    return count


def _runs_on(building: Building, braces: frozenset[str], corner: Point, one: Point, two: Point, within: float) -> bool:
    """Whether a bracing wall leaves the corner the way that one of its walls would run on."""
    for mark in braces:
        for place, option in _ends(building.views[mark]):
            against = min(option[0] * one[0] + option[1] * one[1], option[0] * two[0] + option[1] * two[1])
            if math.dist(place, corner) <= within and against <= -math.cos(_SQUARE):
                return True
    return False
