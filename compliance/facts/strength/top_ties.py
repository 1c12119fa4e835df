"""What ties the top of a wall: anchors into the bond beam, and the bond beam between crossing walls."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.anchorage import (
    anchorage_force,
    anchorage_force_step,
    force_at_top,
    force_at_top_step,
    greatest_spacing,
    greatest_spacing_step,
)
from compliance.facts.mechanics.sections import section_modulus
from compliance.facts.mechanics.spans import uniform_moment, uniform_moment_step
from compliance.steps import Given, Step

_FREE = "nothing is said to hold the top of the wall"


def anchorage(building: Building, wall: Subject) -> Fact:
    """Force along the wall that must tie its top, at the level of allowable stresses [N/m]."""
    need, mark = Needs(wall), wall.mark
    restraint = need.field(building.project.walls[mark].top_restraint, "walls", mark, "top_restraint")
    if restraint == "free":
        return without_meaning(_FREE)
    pressure, height = need.number("wall.lateral_pressure"), need.number("wall.height")
    sds, importance = need.number("site.sds"), need.number("site.importance")
    per, least = building.screening["anchorage_per_sds"], building.screening["anchorage_least"]
    level = building.screening["seismic_to_allowable"]
    each, floor, c = need.use(per), need.use(least), need.use(level)
    if need.lacks:
        return need.lacking
    computed = force_at_top(pressure, height, 0.0)

    def worked() -> tuple[Step, ...]:
        lowered = tuple(
            Step(f"{says} at the level of allowable stresses", "c × p", (level.given("c"), one.given("p")),
                 Given("p_a", c * one.value, "line_load"), one.source)
            for says, one in (("Anchorage for each S_DS", per), ("Least anchorage", least))
        )  # fmt: skip
        return (force_at_top_step(pressure, height, 0.0), *lowered,
                anchorage_force_step(computed, c * each, sds, importance, c * floor))  # fmt: skip

    return need.known(anchorage_force(computed, c * each, sds, importance, c * floor), worked)


def anchor_spacing_most(building: Building, wall: Subject) -> Fact:
    """The spacing at which each anchor is loaded to its capacity [m]."""
    need = Needs(wall)
    force, capacity = need.of(wall.fact("wall.anchorage_force")), need.number("beam.anchor_capacity")
    if need.lacks:
        return need.lacking
    assert isinstance(force, float)
    return need.known(greatest_spacing(force, capacity), lambda: (greatest_spacing_step(force, capacity),))


def anchor_capacity(building: Building, beam: Subject) -> Fact:
    """What each anchor of the bond beam may take sideways, as stated [N]."""
    need = Needs(beam)
    anchors = building.project.beams[beam.mark].anchors
    path = ("beams", beam.mark, "anchors")
    stated = need.field(si(anchors.capacity) if anchors else None, *path, "capacity")
    source = anchors.capacity_source if anchors else None
    return need.known(stated, lambda: (_as_stated("Capacity of one anchor", Given("T", stated, "force"), source),))


def _as_stated(says: str, result: Given, source: str | None) -> Step:
    return Step(says, "", (), result, source or "as the project states it, without a source")


def beam_moment(building: Building, wall: Subject) -> Fact:
    """Moment in the bond beam, lying flat between crossing walls, from anchorage and roof thrust [N·m]."""
    described = building.project.walls[wall.mark]
    if described.top_restraint == "free":
        return without_meaning(_FREE)
    if described.top_restraint == "roof":
        return without_meaning("the roof is said to hold the top of the wall, not the bond beam")
    need = Needs(wall)
    force, push = need.number("wall.anchorage_force"), need.number("wall.beam_thrust")
    span, divisor = need.number("wall.unsupported_length"), need.use(building.screening["beam_divisor"])
    if need.lacks:
        return need.lacking
    line = force + push
    value = uniform_moment(line, span, divisor)

    def worked() -> tuple[Step, ...]:
        given = (Given("p", force, "line_load", "anchorage"), Given("H", push, "line_load", "roof thrust it holds"))
        both = Step("Sideways load on the bond beam", "p + H", given, Given("w", line, "line_load"), "statics")
        return (both, uniform_moment_step(line, span, divisor, "Moment in the bond beam between crossing walls"))

    return need.known(value, worked)


def moment_allowed(building: Building, beam: Subject) -> Fact:
    """What moment the bond beam may take across the wall: as stated, or from the allowable stress of its wood [N·m]."""
    described, need = building.project.beams[beam.mark], Needs(beam)
    if described.moment_capacity is not None or described.material == "concrete":
        stated = need.field(si(described.moment_capacity), "beams", beam.mark, "moment_capacity")
        result = Given("M_a", stated, "moment")
        return need.known(stated, lambda: (_as_stated("Allowable moment", result, described.capacity_source),))
    stress = need.field(si(described.bending_stress), "beams", beam.mark, "bending_stress")
    high, wide = need.number("beam.depth"), need.number("beam.width")
    if need.lacks:
        return need.lacking
    value = stress * section_modulus(high, wide)

    def worked() -> tuple[Step, ...]:
        given = (Given("F_b", stress, "stress"), Given("d", high, "thickness", "its size upright"),
                 Given("b", wide, "thickness", "its size across the wall"))  # fmt: skip
        stated = _as_stated("Allowable bending stress", Given("F_b", stress, "stress"), described.capacity_source)
        result = Given("M_a", value, "moment")
        return (stated, Step("Allowable moment across the wall", "F_b × d × b² / 6", given, result, "statics"))

    return need.known(value, worked)
