"""What an earthen wall may carry from above, in three published forms of allowance for slenderness."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.eccentricity import (
    EN_ENDS,
    MiddleCurve,
    creep_eccentricity,
    curve_for,
    curve_steps,
    end_eccentricity,
    end_reduction,
    end_steps,
    initial_eccentricity,
    middle_reduction,
    middle_steps,
    resistance,
    resistance_step,
)
from compliance.facts.mechanics.slenderness import (
    SlendernessCurve,
    allowable_axial_step,
    allowable_axial_stress,
    flat_allowable_step,
    radius_of_gyration,
    slenderness_factor,
    slenderness_steps,
)
from compliance.steps import Given, Step


def effective_height(building: Building, wall: Subject) -> Fact:
    """The height that counts for slenderness: the wall's own where its top is held, more where it is free [m]."""
    need = Needs(wall)
    restraint = need.field(building.project.walls[wall.mark].top_restraint, "walls", wall.mark, "top_restraint")
    height = need.number("wall.height")
    if need.lacks:
        return need.lacking
    share = building.screening["height_free" if restraint == "free" else "height_held"]
    value = need.use(share) * height
    step = Step("Height that counts", "k × h", (share.given("k", share.source), Given("h", height, "length")),
                Given("h_e", value, "length"), share.source)  # fmt: skip
    return need.known(value, lambda: (step,))


def _curve(need: Needs, building: Building) -> SlendernessCurve:
    names = ("curve_short", "curve_bound", "curve_tall")
    return SlendernessCurve(*(need.use(building.screening[name]) for name in names))


def slenderness(building: Building, wall: Subject) -> Fact:
    """Share of the axial strength that slenderness leaves, least thickness, masonry form."""
    need = Needs(wall)
    height, thick = need.number("wall.effective_height"), need.number("wall.least_thickness")
    curve = _curve(need, building)
    if need.lacks:
        return need.lacking
    value = slenderness_factor(height, radius_of_gyration(thick), curve)
    return need.known(value, lambda: slenderness_steps(height, thick, curve))


def slender_allowable(building: Building, wall: Subject) -> Fact:
    """Allowable axial stress in the masonry form: a share of the strength, reduced for slenderness [Pa]."""
    need = Needs(wall)
    tested, factor = need.number("mix.lowest_compression"), need.number("wall.slenderness_factor")
    share = need.use(building.screening["axial_share"])
    if need.lacks:
        return need.lacking
    value = allowable_axial_stress(tested, share, factor)
    return need.known(value, lambda: (allowable_axial_step(tested, share, factor),))


def flat_allowable(building: Building, wall: Subject) -> Fact:
    """Allowable load along the wall in the flat form: a small share of the strength on the gross section of its base,
    where it carries most [N/m]."""
    need = Needs(wall)
    tested, thick = need.number("mix.lowest_compression"), need.number("wall.base_thickness")
    share = building.screening["flat_share"]
    stress = need.use(share) * tested
    if need.lacks:
        return need.lacking
    given = (share.given("k", "share of the strength"), Given("f", tested, "stress", "lowest strength"))
    first = Step("Allowable stress on the gross area", "k × f", given, Given("F", stress, "stress"), share.source)
    return need.known(stress * thick, lambda: (first, flat_allowable_step(stress, thick)))


def eccentric_resistance(building: Building, wall: Subject) -> Fact:
    """What the wall resists along its length in the form of EN 1996-1-1, end and mid-height, least thickness [N/m].

    The factor of the loads is put on the resistance, so that it stands against loads as they are.
    """
    need = Needs(wall)
    tested = need.number("mix.lowest_compression")
    height, thick = need.number("wall.effective_height"), need.number("wall.least_thickness")
    offset, load = need.number("wall.load_offset"), need.number("wall.top_load")
    c = {name: need.use(building.screening[name]) for name in _EN}
    if need.lacks:
        return need.lacking
    init = initial_eccentricity(height, c["out_of_true"])
    least, top = c["least_eccentricity"], max(load, 1e-9)
    end = end_eccentricity(top * offset, top, 0.0, init, thick, least)
    at_once = max(offset / 2 + init, least * thick)
    crept = creep_eccentricity(c["creep_factor"], c["creep"], height, thick, at_once)
    middle = at_once + crept
    curve = curve_for(c["modulus_ratio"], c["bend_start"], c["bend_span"], c["bend_slope"])
    reach = _within(middle, thick, curve)
    reduction = min(end_reduction(end, thick), middle_reduction(middle, height, thick, curve) if reach else 0.0)
    design = tested / (c["partial_factor"] * c["load_factor"])

    def worked() -> tuple[Step, ...]:
        measures = (Given("h", height, "length"), Given("d", c["out_of_true"]))
        true = Step("For walls out of true", "h / d", measures, Given("e_init", init, "thickness"), EN_ENDS)
        ends = (true, *end_steps(top * offset, top, 0.0, init, thick, least))
        figures = curve_steps(c["modulus_ratio"], c["bend_start"], c["bend_span"], c["bend_slope"])
        mids = (*figures, *middle_steps(middle, height, thick, curve)) if reach else (_OFF,)
        given = (Given("f", tested, "stress", "lowest strength"), building.screening["partial_factor"].given("γ_M"),
                 building.screening["load_factor"].given("γ_F"))  # fmt: skip
        stress = Step("Design strength, the factor of the loads included", "f / (γ_M × γ_F)", given,
                      Given("f_d", design, "stress"), building.screening["partial_factor"].source)  # fmt: skip
        offs = _middle_offs(offset, init, c, height, thick, at_once, crept)
        return (*ends, *offs, *mids, stress, resistance_step(reduction, thick, design))

    return need.known(resistance(reduction, thick, design), worked)


_EN = (
    "out_of_true", "least_eccentricity", "creep_factor", "creep", "modulus_ratio", "bend_start", "bend_span",
    "bend_slope", "partial_factor", "load_factor",
)  # fmt: skip
_OFF = Step("Eccentricity beyond the reach of the buckling curve", "", (), Given("Φ_m", 0.0), "EN 1996-1-1, Annex G")


def _within(off: float, thick: float, curve: MiddleCurve) -> bool:
    return end_reduction(off, thick) == 0 or curve.span - curve.slope * off / thick > 0


def _middle_offs(
    offset: float, init: float, c: dict[str, float], height: float, thick: float, at_once: float, crept: float
) -> tuple[Step, ...]:  # fmt: skip
    """Half of the bearing's offset is left at mid-height, the wall is out of true, and it creeps."""
    first = Given("e_m", at_once, "thickness", "at once")
    given = (
        Given("e", offset, "thickness", "bearing off the middle"),
        Given("e_init", init, "thickness", "for walls out of true"),
        Given("c", c["least_eccentricity"], "ratio", "least share of the thickness"),
        Given("t", thick, "thickness"),
    )
    creeping = (
        Given("k", c["creep_factor"]), Given("φ", c["creep"], "ratio", "creep"), Given("h", height, "length"),
        Given("t", thick, "thickness"), first,
    )  # fmt: skip
    later = Given("e_k", crept, "thickness", "creep")
    total = Given("e_mk", at_once + crept, "thickness")
    return (
        Step("Eccentricity at mid-height, at once", "max(e / 2 + e_init, c × t)", given, first, EN_ENDS),
        Step("Eccentricity from creep", "k × φ × h / t × √(t × e_m)", creeping, later, EN_ENDS),
        Step("Eccentricity at mid-height", "e_m + e_k", (first, later), total, EN_ENDS),
    )


def axial_use(building: Building, wall: Subject) -> Fact:
    """The greatest of the three ratios of load to what the wall may carry."""
    need = Needs(wall)
    names = ("greatest_stress", "slender_allowable", "base_load", "eccentric_resistance", "flat_allowable")
    s, fa, n, nr, nf = (need.number(f"wall.{name}") for name in names)
    if need.lacks:
        return need.lacking
    value = max(load / allowed if allowed > 0 else math.inf for load, allowed in ((s, fa), (n, nr), (n, nf)))
    given = (
        Given("σ", s, "stress"), Given("F_a", fa, "stress"), Given("n", n, "line_load"),
        Given("N_Rd", nr, "line_load"), Given("n_F", nf, "line_load"),
    )  # fmt: skip
    step = Step(
        "Greatest use under axial load",
        "max(σ / F_a, n / N_Rd, n / n_F)",
        given,
        Given("", value),
        "the worst of the three forms above",
    )
    return need.known(value, lambda: (step,))
