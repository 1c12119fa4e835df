"""What a roof weighs and what lies on it: dead load, water in its layers, snow."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, known, lacking, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.site.roof_layers import Layer, RoofWeight, roof_weight
from compliance.facts.site.snow import NOT_COVERED, RoofSnow, SnowRoof, roof_snow
from compliance.steps import Given, Step

_SAME = 1e-9


def _weight(building: Building, need: Needs) -> RoofWeight | None:
    """Weight of the described layers; None where a layer lacks a value, which `need` then names."""
    mark = need.subject.mark
    roof = building.project.roofs[mark]
    slope = need.number("roof.slope")
    layers = []
    for index, one in enumerate(roof.layers):
        layer = Layer(
            one.material,
            thickness=si(one.thickness),
            saturated_density=si(one.saturated_density),
            weight=si(one.weight),
            passing_water=bool(one.passing_water),
        )
        for word in layer.missing:
            need.field(None, "roofs", mark, "layers", index, word.replace(" ", "_"))
        layers.append(layer)
    if not need.lacks and slope >= math.pi / 2:
        need.lack("the slope is no roof's", ("roofs", mark, "slope"))
    return None if need.lacks else roof_weight(layers, slope)


def layer_dead(building: Building, roof: Subject) -> Fact:
    """Dead load of the layers, soaked, over the plan of the roof [Pa]."""
    if not building.project.roofs[roof.mark].layers:
        return without_meaning("the roof is described without layers")
    need = Needs(roof)
    found = _weight(building, need)
    if found is None or found.dead is None:
        return need.lacking
    return need.known(found.dead, lambda: _lines(found, "Dead"))


def water(building: Building, roof: Subject) -> Fact:
    """Water that passes through the layers while it rains, a live load [Pa]; zero where no layer holds any."""
    if not any(layer.passing_water for layer in building.project.roofs[roof.mark].layers):
        return known(0.0)
    need = Needs(roof)
    found = _weight(building, need)
    if found is None or found.live is None:
        return need.lacking
    return need.known(found.live, lambda: _lines(found, "Water"))


def _lines(found: RoofWeight, of: str) -> tuple[Step, ...]:
    """The lines of one of the two sums: those of its layers, then its own."""
    last = next((step for step in found.steps if step.says.startswith(of)), None)
    if last is None:
        return ()
    terms = {given.symbol for given in last.given}
    return (*(step for step in found.steps if step.result.symbol in terms), last)


def dead(building: Building, roof: Subject) -> Fact:
    """Where the dead load is not stated: that of the layers."""
    layers = roof.fact("roof.layer_dead")
    return lacking(("roofs", roof.mark, "dead")) if layers.reason else layers


def dead_agrees(building: Building, roof: Subject) -> Fact:
    """Whether the stated dead load is no less than that of the layers."""
    stated, layers = si(building.project.roofs[roof.mark].dead), roof.fact("roof.layer_dead")
    if stated is None or layers.value is None:
        return without_meaning("the dead load is not both stated and given by layers, so there is nothing to compare")
    return _at_least(roof, stated, layers, "Dead load as stated")


def snow(building: Building, roof: Subject) -> Fact:
    """Where the roof states none: the roof snow of the jurisdiction, else what follows from the ground snow."""
    given = si(building.project.site.roof_snow)
    if given is not None:
        step = Step(
            "Roof snow load",
            formula="",
            given=(),
            result=Given("p", given, "pressure"),
            source="as the jurisdiction gives it",
        )
        return known(given, lambda: (step,))
    return roof.fact("roof.derived_snow")


def derived_snow(building: Building, roof: Subject) -> Fact:
    """Balanced snow from the ground snow load (ASCE 7 chapter 7) [Pa]. Drifts and sliding snow come on top of it."""
    need = Needs(roof)
    found = snow_from_ground(building, need, roof.mark)
    if found is None or found.pressure is None:
        return need.lacking
    pressure = found.pressure
    return need.known(pressure, lambda: (*map(_remark, found.remarks), *found.steps))


def snow_from_ground(building: Building, need: Needs, roof: str) -> RoofSnow | None:
    """The snow on a roof from the ground snow load; None where a value lacks, which `need` then names."""
    ground, slope = need.number("site.ground_snow"), need.number_of(building.subject("roof", roof).fact("roof.slope"))
    site, described = building.project.site, building.project.roofs[roof]
    terrain = need.field(site.wind_exposure, "site", "wind_exposure")
    sheltering = need.field(site.snow_sheltering, "site", "snow_sheltering")
    risk = need.field(site.risk_category, "site", "risk_category")
    warmth = need.field(described.warmth, "roofs", roof, "warmth")
    if need.lacks:
        return None
    on = SnowRoof(
        slope,
        run=si(described.run),
        terrain=terrain,
        sheltering=sheltering,
        warmth=warmth,
        risk_category=risk,
        slippery=bool(described.slippery),
    )
    found = roof_snow(None, ground, on, building.tables.snow)
    need.rest_on(found.standing)
    return found


def _remark(says: str) -> Step:
    """A line for what the load leaves out or takes in."""
    result = Given("", "not in this load" if says == NOT_COVERED else "in this load", "word")
    return Step(says, formula="", given=(), result=result, source=_SNOW)


_SNOW = "ASCE 7 chapter 7, in outline"


def snow_agrees(building: Building, roof: Subject) -> Fact:
    """Whether the snow load that is stated is no less than the one that follows from the ground snow."""
    stated = si(building.project.roofs[roof.mark].snow or building.project.site.roof_snow)
    derived = roof.fact("roof.derived_snow")
    if stated is None or derived.value is None:
        return without_meaning("the roof snow is not both given and derived, so there is nothing to compare")
    return _at_least(roof, stated, derived, "Roof snow as given")


def _at_least(roof: Subject, stated: float, derived: Fact, says: str) -> Fact:
    need = Needs(roof)
    least = need.number_of(derived)
    step = Step(says, formula="", given=(), result=Given("", stated, "pressure"), source="as the project states it")
    return need.known(stated >= least * (1 - _SAME), lambda: (step,))
