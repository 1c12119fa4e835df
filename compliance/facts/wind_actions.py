"""Wind at the building: what it blows with, what it does to the roof, and what it lifts off the walls."""

from __future__ import annotations

import math

from compliance.facts.building import Building
from compliance.facts.fact import Fact, known, si
from compliance.facts.mechanics.anchorage import (
    depth_to_hold_down,
    depth_to_hold_down_step,
    force_per_anchor,
    force_per_anchor_step,
    net_uplift,
    net_uplift_step,
)
from compliance.facts.needs import Needs
from compliance.facts.subjects import Subject
from compliance.facts.wind import WindEdition, WindSite, pressure_at, pressure_steps
from compliance.model.structure import Bearing
from compliance.steps import Given, Step

_NOTHING = Step("Nothing lifts the top of the wall", "", (), Given("d", 0.0, "length"))


def wind_edition(building: Building, need: Needs) -> WindEdition | None:
    """The edition the project names; None where it names none."""
    edition = need.field(building.project.site.asce7, "site", "asce7")
    if edition is None:
        return None
    found = building.tables.wind[edition]
    need.rest_on(found.standing)
    return found


def wind_site(building: Building, need: Needs) -> WindSite | None:
    """The wind at the building; None where the project lacks a value for it, which `need` then names.

    The ground elevation factor is 1, which every edition allows. Only 7-05 has an importance factor.
    """
    site = building.project.site
    speed = need.field(si(site.wind_speed), "site", "wind_speed")
    exposure = need.field(site.wind_exposure, "site", "wind_exposure")
    topographic = need.field(site.topographic_factor, "site", "topographic_factor")
    factor = 1.0
    if site.asce7 == "7-05":
        risk = need.field(site.risk_category, "site", "risk_category")
        factor = need.use(building.screening.importance["wind"][risk]) if risk else factor
    return None if need.lacks else WindSite(speed, exposure, topographic, 1.0, factor)


def velocity_pressure(building: Building, site: Subject) -> Fact:
    """q at the height of the building, in place of the mean height of the roof: on the safe side. Level of the wind
    speed."""
    need = Needs(site)
    height = need.number("project.building_height")
    edition, wind = wind_edition(building, need), wind_site(building, need)
    if need.lacks or edition is None or wind is None:
        return need.lacking
    return need.known(
        pressure_at(height, wind, edition, False), lambda: pressure_steps(height, wind, edition, False)
    )  # fmt: skip


def suction(building: Building, roof: Subject) -> Fact:
    """Wind suction on the roof between the walls, inside pressure added, at the level of allowable stresses [Pa]."""
    return _lift(building, roof, "roof_suction")


def eave_suction(building: Building, roof: Subject) -> Fact:
    """The same on the eaves, pushed up from below as well [Pa]."""
    return _lift(building, roof, "eave_lift")


def _lift(building: Building, roof: Subject, below: str) -> Fact:
    need = Needs(roof)
    q = need.number("site.wind_pressure")
    edition = wind_edition(building, need)
    enclosure = need.field(building.project.site.enclosure, "site", "enclosure")
    if need.lacks or edition is None:
        return need.lacking
    gust, above = building.tables.building.gust, building.screening["roof_suction"]
    inside = building.tables.walls.internal_of(enclosure)
    need.rest_on(building.tables.building.standing)
    need.rest_on(building.tables.walls.standing)
    top = need.use(above)
    given = [
        Given("c", edition.to_allowable, "ratio", "to allowable stresses"),
        Given("q", q, "pressure", "velocity pressure"),
        Given("G", gust, "ratio", "gust factor"),
        above.given("C_p", "suction on the roof"),
    ]
    if below == "eave_lift":
        under = building.screening[below]
        value = edition.to_allowable * q * gust * (top + need.use(under))
        given.append(under.given("C_e", "pressure under the eaves"))
        says, formula = "Wind lifts the eaves", "c × q × G × (C_p + C_e)"
    else:
        value = edition.to_allowable * q * (gust * top + inside)
        given.append(Given("GC_pi", inside, "ratio", enclosure))
        says, formula = "Wind lifts the roof between the walls", "c × q × (G × C_p + GC_pi)"
    step = Step(says, formula, tuple(given), Given("u", value, "pressure"), above.source)
    return need.known(value, lambda: (step,))


def wall_uplift(building: Building, wall: Subject) -> Fact:
    """What the wind lifts off the wall's top once a share of the roof's dead load has held what it can [N/m]."""
    need = Needs(wall)
    parts = [_net(building, need, one.roof, one.bearing, one.index) for one in building.roofs_on(wall.mark)]
    if need.lacks:
        return need.lacking
    total = math.fsum(value for value, _ in parts)
    return need.known(total, lambda: tuple(step for _, steps in parts for step in steps))


def gross_uplift(building: Building, wall: Subject) -> Fact:
    """What the wind lifts off the wall's top with nothing to hold it [N/m]."""
    need = Needs(wall)
    total = 0.0
    for one in building.roofs_on(wall.mark):
        mean, width = _mean(building, need, one.roof, one.bearing, one.index)
        total += mean * width
    return need.known(total, lambda: ())


def _mean(building: Building, need: Needs, roof: str, bearing: Bearing, index: int) -> tuple[float, float]:
    """Mean suction [Pa] on the width of roof that hangs on a wall, eaves and all, and that width [m]."""
    subject = building.subject("roof", roof)
    up, eave = (need.number_of(subject.fact(name)) for name in ("roof.suction", "roof.eave_suction"))
    overhang = need.number_of(subject.fact("roof.overhang"))
    width = need.field(si(bearing.tributary), "roofs", roof, "bears_on", index, "tributary")
    if need.lacks:
        return 0.0, 0.0
    out = min(overhang, width)
    return (up * (width - out) + eave * out) / width, width


def _net(
    building: Building, need: Needs, roof: str, bearing: Bearing, index: int
) -> tuple[float, tuple[Step, ...]]:  # fmt: skip
    mean, width = _mean(building, need, roof, bearing, index)
    subject = building.subject("roof", roof)
    dead = need.number_of(subject.fact("roof.dead"))
    share = need.use(building.screening["dead_share"])
    if need.lacks:
        return 0.0, ()
    up, eave = subject.fact("roof.suction").value, subject.fact("roof.eave_suction").value
    overhang = subject.fact("roof.overhang").value
    assert isinstance(up, float) and isinstance(eave, float) and isinstance(overhang, float)
    given = (
        Given("u_r", up, "pressure", "suction between the walls"),
        Given("u_e", eave, "pressure", "suction on the eaves"),
        Given("b", width, "length", "width of roof the wall holds"),
        Given("o", min(overhang, width), "length", "overhang"),
    )
    even = Step(f"Mean suction on what {roof} hangs on the wall", "(u_r × (b − o) + u_e × o) / b", given,
                Given("u", mean, "pressure"), "statics")  # fmt: skip
    return net_uplift(mean, dead, share, width), (even, net_uplift_step(mean, dead, share, width))


def line_uplift(building: Building, roof: Subject) -> Fact:
    """The greatest net uplift along a wall that the roof bears on [N/m]."""
    need = Needs(roof)
    bears = building.project.roofs[roof.mark].bears_on
    if not bears:
        need.field(None, "roofs", roof.mark, "bears_on")
    parts = [_net(building, need, roof.mark, bearing, index) for index, bearing in enumerate(bears)]
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
