"""What the wind lifts off the walls, and what must hold it down."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, known, si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.tributary import hung
from compliance.facts.mechanics.anchorage import (
    depth_to_hold_down,
    depth_to_hold_down_step,
    force_per_anchor,
    force_per_anchor_step,
    net_uplift,
    net_uplift_step,
)
from compliance.steps import Given, Step

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
    parts = [(one.roof, *_mean(building, need, one.roof, one.index))
             for one in building.roofs_on(wall.mark)]  # fmt: skip
    total = math.fsum(mean * width for _, mean, width in parts)

    def worked() -> tuple[Step, ...]:
        lifts = tuple(
            Step(f"{roof} lifts the top of {wall.mark}", "u × b",
                 (Given("u", mean, "pressure", "mean suction"), Given("b", width, "length", "width that hangs on it")),
                 Given(f"p{place}", mean * width, "line_load"), "statics")
            for place, (roof, mean, width) in enumerate(parts, 1)
        )  # fmt: skip
        means = tuple(step for one, (_, mean, width) in zip(building.roofs_on(wall.mark), parts, strict=True)
                      for step in (*hung(building, need, one.roof, one.index).steps,
                                   _mean_step(building, one.roof, width, mean)))  # fmt: skip
        if len(lifts) < 2:
            return (*means, *lifts)
        formula = " + ".join(step.result.symbol for step in lifts)
        result = Given("p", total, "line_load")
        return (
            *means,
            *lifts,
            Step("Lift on the wall's top", formula, tuple(step.result for step in lifts), result, "sum"),
        )

    return need.known(total, worked)


def _mean(building: Building, need: Needs, roof: str, index: int) -> tuple[float, float]:
    """Mean suction [Pa] on the width of roof that hangs on a wall, eaves and all, and that width [m]."""
    subject = building.subject("roof", roof)
    up, eave = (need.number_of(subject.fact(name)) for name in ("roof.suction", "roof.eave_suction"))
    overhang = need.number_of(subject.fact("roof.overhang"))
    width = hung(building, need, roof, index).width
    if need.lacks:
        return 0.0, 0.0
    out = min(overhang, width)
    return (up * (width - out) + eave * out) / width, width


def _net(building: Building, need: Needs, roof: str, index: int) -> tuple[float, tuple[Step, ...]]:
    mean, width = _mean(building, need, roof, index)
    subject = building.subject("roof", roof)
    dead = need.number_of(subject.fact("roof.dead"))
    share = need.use(building.screening["dead_share"])
    if need.lacks:
        return 0.0, ()
    steps = (*hung(building, need, roof, index).steps, _mean_step(building, roof, width, mean))
    return net_uplift(mean, dead, share, width), (*steps, net_uplift_step(mean, dead, share, width))


def _mean_step(building: Building, roof: str, width: float, mean: float) -> Step:
    """Of a mean suction that is known."""
    subject = building.subject("roof", roof)
    up, eave = subject.fact("roof.suction").value, subject.fact("roof.eave_suction").value
    overhang = subject.fact("roof.overhang").value
    assert isinstance(up, float) and isinstance(eave, float) and isinstance(overhang, float)
    given = (
        Given("u_r", up, "pressure", "suction between the walls"),
        Given("u_e", eave, "pressure", "suction on the eaves"),
        Given("b", width, "length", "width of roof the wall holds"),
        Given("o", min(overhang, width), "length", "overhang"),
    )
    return Step(f"Mean suction on what {roof} hangs on the wall", "(u_r × (b − o) + u_e × o) / b", given,
                Given("u", mean, "pressure"), "statics")  # fmt: skip


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
    """The pull on one anchor of the roof [N]."""
    need = Needs(roof)
    line = need.number("roof.line_uplift")
    spacing = need.field(
        si(building.project.roofs[roof.mark].uplift_anchor_spacing), "roofs", roof.mark, "uplift_anchor_spacing"
    )
    if need.lacks:
        return need.lacking
    return need.known(force_per_anchor(line, spacing), lambda: (force_per_anchor_step(line, spacing),))


def anchor_resistance(building: Building, roof: Subject) -> Fact:
    """What one anchor of the roof may take upward, as stated [N]."""
    need = Needs(roof)
    stated = need.field(si(building.project.roofs[roof.mark].uplift_anchor), "roofs", roof.mark, "uplift_anchor")
    step = Step("Resistance of one anchor", "", (), Given("T", stated, "force"), "as the project states it")
    return need.known(stated, lambda: (step,))


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
    return need.known(
        depth_to_hold_down(uplift, thin, density, share),
        lambda: (depth_to_hold_down_step(uplift, thin, density, share),),
    )
