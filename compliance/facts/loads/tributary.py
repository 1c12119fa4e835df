"""The width of roof that hangs on each wall it bears on: as stated, else from the plan."""

from __future__ import annotations

import math

from compliance.facts.common.fact import si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.loads.roof_lines import roof_plan
from compliance.record import record, replace
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Named, Source, Step

_SOURCE = Source("from the plan; rafters counted as simple spans, common practice, no source")
_LEVER = "simple span with an overhang at the wall, statics"


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
beside_ridge_beam = equation(
    "Width of roof that hangs on the wall", "(half + past) ** 2 / (2 * half)", Symbol("b", "length"), _LEVER,
    half=Symbol("s", "length", "from the ridge beam to the wall"), past=Symbol("o", "length", "past the wall"),
)  # fmt: skip
on_ridge_beam = equation(
    "Width of roof that the ridge beam carries", "max((half ** 2 - past ** 2) / half, 0)", Symbol("b_r", "length"),
    _LEVER,
    half=Symbol("s", "length", "from the ridge beam to the wall"), past=Symbol("o", "length", "past the wall"),
)  # fmt: skip
EQUATIONS = (half_distances, half_distance_at_edge, beside_ridge_beam, on_ridge_beam)


@record
class Hung:
    """A width of roof [m] on plan, and the line that gives it; none where it is stated."""

    width: float

    @property
    def steps(self) -> tuple[Step, ...]:
        return (replace(self.width.step(), is_assumed=True),) if isinstance(self.width, Solved) else ()


def hung(building: Building, need: Needs, roof: str, index: int) -> Hung:
    """What of a roof hangs on the wall of its bearing `index`. Without a stated width it is half the distance to the
    next line of bearing walls on either side; at the edge half of the wall's thickness and the overhang are added.
    Beside a ridge beam it is the reaction of a rafter with an overhang, over its even load. Only where rafters span
    between straight walls that run one way and no purlin carries a part; elsewhere the field lacks."""
    bearing = building.project.roofs[roof].bears_on[index]
    if bearing.tributary is not None:
        return Hung(bearing.tributary.si)
    found = width_of_plan(building, need, roof, index)
    if found is None:
        need.field(None, "roofs", roof, "bears_on", index, "tributary")
    return Hung(math.nan if found is None else found)


def width_of_plan(building: Building, need: Needs, roof: str, index: int) -> Solved | None:
    """The width that follows from the plan [m]; None where the plan does not tell. A lacking overhang `need` names."""
    plan, described = roof_plan(building, roof), building.project.roofs[roof]
    ridge = described.thrust_held_by == "ridge-beam"
    purlins = any(one.kind != "ridge" for one in described.beams.values())
    if plan is None or len(plan.lines) < 2 or purlins or (ridge and len(plan.lines) > 2):
        return None
    place = plan.bearings[index]
    says = Named("Width of {} that hangs on {}, not stated", roof, described.bears_on[index].wall)
    if len(place.distances) > 1:
        return half_distances.titled(says)(place.distances)
    out = need.field(si(described.overhang), "roofs", roof, "overhang")
    if out is None:
        return half_distance_at_edge.titled(says).without_value(math.nan)
    if ridge:
        return beside_ridge_beam.titled(says)(place.distances[0] / 2, place.thickness / 2 + out)
    return half_distance_at_edge.titled(says)(place.distances, place.thickness, out)


def ridge_width(building: Building, need: Needs, roof: str) -> Hung:
    """Width of roof that a ridge beam midway between two lines of walls carries, both slopes [m]; where the plan does
    not tell it the field lacks."""
    described = building.project.roofs[roof]
    beams = [(mark, one) for mark, one in described.beams.items() if one.kind == "ridge"]
    if beams and beams[0][1].tributary is not None:
        return Hung(beams[0][1].tributary.si)
    plan = roof_plan(building, roof)
    if plan is None or len(plan.lines) != 2:
        need.field(None, "roofs", roof, "beams", beams[0][0] if beams else "RIDGE", "tributary")
        return Hung(math.nan)
    out = need.field(si(described.overhang), "roofs", roof, "overhang")
    if out is None:
        return Hung(math.nan)
    half, past = (plan.lines[1] - plan.lines[0]) / 2, plan.bearings[0].thickness / 2 + out
    return Hung(on_ridge_beam(half, past))
