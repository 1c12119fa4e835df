"""The width of roof that hangs on each wall it bears on: as stated, else from the plan."""

from __future__ import annotations

import math
from itertools import pairwise

from compliance.facts.common.fact import si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.model.lines import Straight
from compliance.record import record, replace
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Named, Source, Step

_SPANNING = ("framed", "trussed", "living")
_DEGREE = math.radians(1)
_SOURCE = Source("from the plan; rafters counted as simple spans, common practice, no source")


half_distances = equation(
    "Width of roof that hangs on the wall", "sum(distance / 2)", Symbol("b", "length"), _SOURCE,
    distance=Series("d", "length", "to the next line"),
)  # fmt: skip
half_distance_at_edge = equation(
    "Width of roof that hangs on the wall", "sum(distance / 2) + thickness / 2 + overhang", Symbol("b", "length"),
    _SOURCE,
    distance=Series("d", "length", "to the next line"), thickness=Symbol("t", "thickness", "at the top"),
    overhang=Symbol("o", "length", "overhang"),
)  # fmt: skip
EQUATIONS = (half_distances, half_distance_at_edge)


@record
class Hung:
    """A width of roof [m] on plan, and the line that gives it; none where it is stated."""

    width: float

    @property
    def steps(self) -> tuple[Step, ...]:
        return (replace(self.width.step(), is_assumed=True),) if isinstance(self.width, Solved) else ()


@record
class _Between:
    """Where a line of walls lies under a roof: ways to the next lines [m]; at the edge there is one only."""

    distances: tuple[float, ...]
    thickness: float


def hung(building: Building, need: Needs, roof: str, index: int) -> Hung:
    """What of a roof hangs on the wall of its bearing `index`. Without a stated width it is half the distance to the
    next line of bearing walls on either side; at the edge half of the wall's thickness and the overhang are added. Only
    where rafters span between straight walls that run one way; elsewhere the field lacks."""
    bearing = building.project.roofs[roof].bears_on[index]
    if bearing.tributary is not None:
        return Hung(bearing.tributary.si)
    between = building.cached(("lines under a roof", roof), lambda: _lines(building, roof))
    if between is None:
        need.field(None, "roofs", roof, "bears_on", index, "tributary")
        return Hung(math.nan)
    place = between[index]
    says = Named("Width of {} that hangs on {}, not stated", roof, bearing.wall)
    if len(place.distances) > 1:
        return Hung(half_distances.titled(says)(place.distances))
    out = need.field(si(building.project.roofs[roof].overhang), "roofs", roof, "overhang")
    return Hung(math.nan if out is None else half_distance_at_edge.titled(says)(place.distances, place.thickness, out))


def _lines(building: Building, roof: str) -> tuple[_Between, ...] | None:
    """For each bearing; None where the plan does not tell."""
    described = building.project.roofs[roof]
    views = [building.pieces[one.wall] for one in described.bears_on]
    places = [view.place.line for view in views]
    straight = [line for line in places if isinstance(line, Straight)]
    twice = len({one.wall for one in described.bears_on}) < len(views)
    if described.kind not in _SPANNING or len(straight) < max(len(places), 2) or twice:
        return None
    c, s = straight[0].direction(0.0)
    if any(abs(c * line.direction(0.0)[1] - s * line.direction(0.0)[0]) > math.sin(_DEGREE) for line in straight):
        return None
    across = [y * c - x * s for x, y in (line.point(line.length / 2) for line in straight)]
    same = max(view.place.thickness for view in views)
    lines: list[list[int]] = []
    for index in sorted(range(len(across)), key=lambda one: across[one]):
        if lines and across[index] - across[lines[-1][0]] <= same:
            lines[-1].append(index)
        else:
            lines.append([index])
    if len(lines) < 2:
        return None
    centres = [math.fsum(across[index] for index in line) / len(line) for line in lines]
    gaps = [after - before for before, after in pairwise(centres)]
    found: dict[int, _Between] = {}
    for number, line in enumerate(lines):
        distances = tuple(gaps[max(number - 1, 0) : number + 1])
        for index in line:
            found[index] = _Between(distances, ends_of_section(views[index].wall)[1])
    return tuple(found[index] for index in range(len(views)))
