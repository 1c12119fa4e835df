"""How a roof lies over the plan: the lines of walls it bears on, the ways between them, and how far it runs along them.

Only for straight walls that run one way; elsewhere the plan does not tell, and the widths carried are stated.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from compliance.facts.common.fact import si
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.wall_facts import WallView, ends_of_section
from compliance.model.lines import Point, Straight
from compliance.record import record

_SPANNING = ("framed", "trussed", "living")
_DEGREE = math.radians(1)


@record
class LineUnder:
    """Where a bearing lies under a roof: ways to the next lines [m], at the edge one only, and the wall's thickness.

    `past` is how far the roof runs on past the wall's first and last point [m]: nothing where another wall carries on,
    and where the project does not say how far it goes."""

    distances: tuple[float, ...]
    thickness: float
    length: float
    past: tuple[float, float]

    @property
    def reach(self) -> float:
        """Length of roof along the wall [m]."""
        return self.length + sum(self.past)


@record
class RoofPlan:
    """`bearings` in the order of the project. The roof runs from `start` to `end` along `direction` [m], rakes and all,
    and covers `width` across, eaves and all; None where the project does not say how far it goes."""

    direction: Point
    bearings: tuple[LineUnder, ...]
    lines: tuple[float, ...]
    start: float | None
    end: float | None
    width: float | None
    walls_length: float

    @property
    def length(self) -> float | None:
        return None if self.start is None or self.end is None else self.end - self.start

    def along(self, point: Point) -> float:
        """Place of a point along the roof [m]."""
        return point[0] * self.direction[0] + point[1] * self.direction[1]

    def across(self, point: Point) -> float:
        return point[1] * self.direction[0] - point[0] * self.direction[1]


def roof_plan(building: Building, roof: str) -> RoofPlan | None:
    """How the roof lies over the plan; None where the plan does not tell."""
    return building.cached(("roof over the plan", roof), lambda: _roof_plan(building, roof))


def _roof_plan(building: Building, roof: str) -> RoofPlan | None:
    described = building.project.roofs[roof]
    views = [building.pieces[one.wall] for one in described.bears_on]
    straight = [line for view in views if isinstance(line := view.place.line, Straight)]
    twice = len({one.wall for one in described.bears_on}) < len(views)
    if described.kind not in _SPANNING or described.radius or len(straight) < max(len(views), 1) or twice:
        return None
    c, s = straight[0].direction(0.0)
    if any(abs(c * line.direction(0.0)[1] - s * line.direction(0.0)[0]) > math.sin(_DEGREE) for line in straight):
        return None
    across = [y * c - x * s for x, y in (line.point(line.length / 2) for line in straight)]
    along = [x * c + y * s for line in straight for x, y in (line.start, line.end)]
    same = max(view.place.thickness for view in views)
    lines: list[list[int]] = []
    for index in sorted(range(len(across)), key=lambda one: across[one]):
        if lines and across[index] - across[lines[-1][0]] <= same:
            lines[-1].append(index)
        else:
            lines.append([index])
    centres = tuple(math.fsum(across[index] for index in line) / len(line) for line in lines)
    gaps = [after - before for before, after in pairwise(centres)]
    first, last = min(along), max(along)
    thick = [ends_of_section(view.wall)[1] for view in views]
    ends = [_ends_of(straight, members, (c, s)) for members in lines]
    skew = _alike_long(ends)
    long = max(far - near for near, far in ends) if skew else last - first
    past = _past_the_ends(si(described.length), si(described.rake), long, _thickness_at_ends(building, views))
    found: dict[int, LineUnder] = {}
    for number, members in enumerate(lines):
        distances = tuple(gaps[max(number - 1, 0) : number + 1])
        for index in members:
            stations = [x * c + y * s for x, y in (straight[index].start, straight[index].end)]
            near, far = ends[number] if skew else (first, last)
            at_end = [min(one - near, far - one) <= same for one in stations]
            out = [max(past or 0.0, 0.0) if one else 0.0 for one in at_end]
            found[index] = LineUnder(distances, thick[index], straight[index].length, (out[0], out[1]))
    eave = si(described.overhang)
    edges = [max(thick[index] for index in members) / 2 for members in (lines[0], lines[-1])]
    wide = None if eave is None else centres[-1] - centres[0] + sum(edges) + 2 * eave
    middle = (first + last) / 2
    start, end = (None, None) if past is None else (middle - long / 2 - past, middle + long / 2 + past)
    return RoofPlan(
        (c, s),
        bearings=tuple(found[index] for index in range(len(views))),
        lines=centres,
        start=start,
        end=end,
        width=wide,
        walls_length=long,
    )


def _ends_of(straight: Sequence[Straight], members: Sequence[int], direction: Point) -> tuple[float, float]:
    """Where a line of walls begins and ends along the roof [m]."""
    places = [
        x * direction[0] + y * direction[1]
        for index in members
        for x, y in (straight[index].start, straight[index].end)
    ]
    return min(places), max(places)


def _alike_long(ends: Sequence[tuple[float, float]]) -> bool:
    """Whether all lines are as long: under a roof on a plan that leans each then ends with the roof."""
    lengths = [far - near for near, far in ends]
    return min(lengths) >= (1 - _ALIKE) * max(lengths)


_ALIKE = 0.02


def _thickness_at_ends(building: Building, views: Sequence[WallView]) -> float:
    """The thickness at the top of the walls across which the roof ends [m]; that of the walls it bears on where none
    stand there."""
    across = [
        ends_of_section(building.project.walls[mark])[1]
        for view in views
        for one in view.supports
        for mark in one.at_joint
        if mark in building.pieces and min(one.s, view.place.line.length - one.s) <= view.place.thickness
        and one.angle > math.radians(45) and mark not in {each.mark for each in views}
    ]  # fmt: skip
    return max(across or [ends_of_section(view.wall)[1] for view in views])


def _past_the_ends(length: float | None, rake: float | None, walls: float, thick: float) -> float | None:
    """How far the roof runs past the center lines of the walls that end it, at either end [m]."""
    if length is not None:
        return (length - walls) / 2
    return None if rake is None else thick / 2 + rake


def reach_along(building: Building, roof: str, wall: str) -> tuple[float, float]:
    """Length of roof that hangs on a wall as built, and the length of that wall under it [m]; the same twice where the
    roof ends with the wall, or the plan does not tell."""
    described, plan = building.project.roofs[roof], roof_plan(building, roof)
    mine = [place for place, one in enumerate(described.bears_on) if building.views[one.wall].mark == wall]
    length = math.fsum(building.pieces[described.bears_on[place].wall].place.line.length for place in mine)
    return (length if plan is None else math.fsum(plan.bearings[place].reach for place in mine)), length


def station_on_whole(building: Building, piece: str, at: float) -> float:
    """The station on the wall as built of one on a piece of it [m]."""
    view, whole = building.pieces[piece], building.views[piece]
    if len(whole.pieces) == 1:
        return at
    own = whole.own_station(view.along(at))
    assert own is not None, f"{piece} is no piece of {whole.mark}"
    return own
