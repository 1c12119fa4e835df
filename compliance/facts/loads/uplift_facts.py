"""What the wind lifts off the walls, and what must hold it down."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, known, si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.roof_lines import reach_along
from compliance.facts.loads.tributary import hung
from compliance.facts.mechanics.anchorage import (
    depth_to_hold_down,
    force_per_anchor,
    net_uplift,
)
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given, Named, Step

_NOTHING = Step("Nothing lifts the top of the wall", "", (), Given("d", 0.0, "length"))


def wall_uplift(building: Building, wall: Subject) -> Fact:
    """What the wind lifts off the wall's top once a share of the roof's dead load has held what it can [N/m]."""
    need = Needs(wall)
    parts = [_net(building, need, one.roof, one.index) for one in building.roofs_on(wall.mark)]
    if need.lacks:
        return need.lacking
    total = math.fsum(value for value, _ in parts)
    return need.known(total, lambda: tuple(step for _, steps in parts for step in steps))


def gross_uplift(building: Building, wall: Subject) -> Fact:
    """What the wind lifts off the wall's top with nothing to hold it [N/m]."""
    need = Needs(wall)
    parts = [(one, *_mean(building, need, one.roof, one.index)) for one in building.roofs_on(wall.mark)]
    if need.lacks:
        return need.lacking
    lifts = [
        lift_of_roof.titled(Named("{} lifts the top of {}", one.roof, wall.mark)).giving(f"p{place}")(mean, width)
        for place, (one, mean, width) in enumerate(parts, 1)
    ]  # fmt: skip
    total = sum_of_lifts(lifts)

    def worked() -> tuple[Step, ...]:
        means = (step for one, mean, _ in parts
                 for step in (*hung(building, need, one.roof, one.index).steps, mean.step()))  # fmt: skip
        return (*means, *(one.step() for one in lifts), *(total.steps() if len(lifts) > 1 else ()))

    return need.known(float(total), worked)


lift_of_roof = equation(
    "The roof lifts the top of the wall", "suction * width", Symbol("p", "line_load"), "statics",
    suction=Symbol("u", "pressure", "mean suction"), width=Symbol("b", "length", "width that hangs on it"),
)  # fmt: skip

sum_of_lifts = equation(
    "Lift on the wall's top", "sum(lift)", Symbol("p", "line_load"), "sum", lift=Series("p", "line_load")
)  # fmt: skip

mean_suction = equation(
    "Mean suction on what hangs on the wall", "(roof * (width - overhang) + eave * overhang) / width",
    Symbol("u", "pressure"), "statics",
    roof=Symbol("u_r", "pressure", "suction between the walls"), eave=Symbol("u_e", "pressure", "suction on the eaves"),
    width=Symbol("b", "length", "width of roof the wall holds"), overhang=Symbol("o", "length", "overhang"),
)  # fmt: skip

lift_past_the_ends = equation(
    "Uplift along the wall, rakes included", "lift * reach / length", Symbol("p_e", "line_load"), "statics",
    lift=Symbol("p", "line_load"), reach=Symbol("L_r", "length", "roof along the wall"),
    length=Symbol("L", "length", "wall"),
)  # fmt: skip


def _mean(building: Building, need: Needs, roof: str, index: int) -> tuple[Solved, float]:
    """Mean suction [Pa] on the width of roof that hangs on a wall, eaves and all, and that width [m]."""
    subject = building.subject("roof", roof)
    up, eave = (need.number_of(subject.fact(name)) for name in ("roof.suction", "roof.eave_suction"))
    overhang = need.number_of(subject.fact("roof.overhang"))
    width = hung(building, need, roof, index).width
    named = mean_suction.titled(Named("Mean suction on what {} hangs on the wall", roof))
    if need.lacks:
        return named.without_value(0.0), 0.0
    return named(up, eave, width, min(overhang, width)), width


def _net(building: Building, need: Needs, roof: str, index: int) -> tuple[float, tuple[Step, ...]]:
    mean, width = _mean(building, need, roof, index)
    subject = building.subject("roof", roof)
    dead = need.number_of(subject.fact("roof.dead"))
    share = need.use(building.screening["dead_share"])
    if need.lacks:
        return 0.0, ()
    along = net_uplift(mean, dead, share, width)
    found, lines = along, [*hung(building, need, roof, index).steps, mean.step(), along.step()]
    reach, length = reach_along(building, roof, building.views[building.project.roofs[roof].bears_on[index].wall].mark)
    if reach > length:
        found = lift_past_the_ends(along, reach, length)
        lines.append(found.step())
    return float(found), tuple(lines)


def line_uplift(building: Building, roof: Subject) -> Fact:
    """The greatest net uplift along a wall that the roof bears on [N/m]."""
    need = Needs(roof)
    bears = building.project.roofs[roof.mark].bears_on
    if not bears:
        need.field(None, "roofs", roof.mark, "bears_on")
    parts = [_net(building, need, roof.mark, index) for index in range(len(bears))]
    if need.lacks:
        return need.lacking
    value, steps = max(parts, key=lambda part: part[0])
    return need.known(value, lambda: steps)


def anchor_uplift(building: Building, roof: Subject) -> Fact:
    """The pull on one anchor of the roof; of a roof without any, all that lifts it along its longest wall [N]."""
    need, described = Needs(roof), building.project.roofs[roof.mark]
    line = need.number("roof.line_uplift")
    if described.uplift_anchor == "none":
        lengths = [building.pieces[one.wall].place.line.length for one in described.bears_on]
        return need.solved(uplift_of_wall, line, max(lengths, default=0.0))
    spacing = need.field(si(described.uplift_anchor_spacing), "roofs", roof.mark, "uplift_anchor_spacing")
    return need.solved(force_per_anchor, line, spacing)


uplift_of_wall = equation(
    "Uplift along the longest wall, no anchors", "line * length", Symbol("T", "force"), "statics",
    line=Symbol("p", "line_load", "uplift along the wall"), length=Symbol("L", "length"),
)  # fmt: skip


def anchor_resistance(building: Building, roof: Subject) -> Fact:
    """What one anchor of the roof may take upward, as stated; nothing where the project says there is none [N]."""
    need, described = Needs(roof), building.project.roofs[roof.mark].uplift_anchor
    says = "No anchors hold the roof down" if described == "none" else "Resistance of one anchor"
    value = 0.0 if described == "none" else need.field(si(described), "roofs", roof.mark, "uplift_anchor")
    step = Step(says, formula="", given=(), result=Given("T", value, "force"), source="as the project states it")
    return need.known(value, lambda: (step,))


def hold_down_depth(building: Building, wall: Subject) -> Fact:
    """Height of wall that must hang on the anchors to hold the roof down [m]."""
    need = Needs(wall)
    uplift, density = need.number("wall.uplift"), need.number("wall.unit_weight")
    share = need.use(building.screening["dead_share"])
    if need.lacks:
        return need.lacking
    thin = wall.fact("wall.least_thickness").value
    assert isinstance(thin, float)
    if uplift == 0:
        return known(0.0, lambda: (*need.steps, _NOTHING))
    return need.worked(depth_to_hold_down(uplift, thin, density, share))


EQUATIONS = (uplift_of_wall, lift_past_the_ends, lift_of_roof, sum_of_lifts, mean_suction)
