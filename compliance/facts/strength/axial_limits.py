"""What an earthen wall may carry from above, in three published forms of allowance for slenderness."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics import eccentricity as en
from compliance.facts.mechanics import slenderness as axial
from compliance.facts.strength.spanning import assumed_top
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol

height_that_counts = equation(
    "Height that counts", "share * height", Symbol("h_e", "length"), "",
    share=Symbol("k"), height=Symbol("h", "length"),
)  # fmt: skip


def effective_height(building: Building, wall: Subject) -> Fact:
    """The height that counts for slenderness: the wall's own where its top is held, more where it is free [m]."""
    need = Needs(wall)
    restraint = assumed_top(need, building, wall.mark)
    height = need.number("wall.height")
    share = building.screening["height_free" if restraint == "free" else "height_held"]
    if not need.lacks:
        need.use(share)
    if need.lacks:
        return need.lacking
    counts = height_that_counts.sourced(share.source)(share.given("k", share.source), height)
    return need.worked(counts)


def _curve(need: Needs, building: Building) -> axial.SlendernessCurve:
    names = ("curve_short", "curve_bound", "curve_tall")
    return axial.SlendernessCurve(*(need.use(building.screening[name]) for name in names))


def slenderness(building: Building, wall: Subject) -> Fact:
    """Share of the axial strength that slenderness leaves, least thickness, masonry form."""
    need = Needs(wall)
    height, thick = need.number("wall.effective_height"), need.number("wall.least_thickness")
    curve = _curve(need, building)
    if need.lacks:
        return need.lacking
    return need.worked(*axial.slenderness_lines(height, thick, curve))


def slender_allowable(building: Building, wall: Subject) -> Fact:
    """Allowable axial stress in the masonry form: a share of the strength, reduced for slenderness [Pa]."""
    need = Needs(wall)
    tested, factor = need.number("mix.lowest_compression"), need.number("wall.slenderness_factor")
    share = need.use(building.screening["axial_share"])
    return need.solved(axial.allowable_axial_stress, tested, share, factor)


initial_eccentricity = equation(
    "Eccentricity at mid-height, at once", "max(offset / 2 + initial, least_share * thickness)",
    Symbol("e_m", "thickness", "at once"), en.EN_ENDS,
    offset=Symbol("e", "thickness", "bearing off the middle"),
    initial=Symbol("e_init", "thickness", "for walls out of true"),
    least_share=Symbol("c", "ratio", "least share of the thickness"), thickness=Symbol("t", "thickness"),
)  # fmt: skip
"""Half of the bearing's offset is left at mid-height, the wall is out of true, and it creeps."""

whole_eccentricity = equation(
    "Eccentricity at mid-height", "initial + later", Symbol("e_mk", "thickness"), en.EN_ENDS,
    initial=Symbol("e_m", "thickness", "at once"), later=Symbol("e_k", "thickness", "creep"),
)  # fmt: skip

design_strength = equation(
    "Design strength, the factor of the loads included", "tested / (partial * loads)", Symbol("f_d", "stress"), "",
    tested=Symbol("f", "stress", "lowest strength"), partial=Symbol("γ_M"), loads=Symbol("γ_F"),
)  # fmt: skip


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
    init = en.initial_eccentricity(height, c["out_of_true"])
    least, top = c["least_eccentricity"], max(load, 1e-9)
    end = en.end_eccentricity(top * offset, top, 0.0, init, thick, least)
    at_end = en.end_reduction(end, thick)
    initial = initial_eccentricity(offset, init, least, thick)
    crept = en.creep_eccentricity(c["creep_factor"], c["creep"], height, thick, initial)
    middle = whole_eccentricity(initial, crept)
    figures = en.curve_figures(c["modulus_ratio"], c["bend_start"], c["bend_span"], c["bend_slope"])
    curve = en.MiddleCurve(*figures)
    within = en.within_curve(middle, thick, curve)
    mids = (*figures, *en.middle_lines(middle, height, thick, curve)) if within else (_OFF,)
    partial, loads = building.screening["partial_factor"], building.screening["load_factor"]
    design = design_strength.sourced(partial.source)(tested, partial.given("γ_M"), loads.given("γ_F"))
    found = en.resistance(min(at_end, mids[-1]), thick, design)
    return need.worked(init, end, at_end, initial, crept, middle, *mids, design, found)


_EN = (
    "out_of_true", "least_eccentricity", "creep_factor", "creep", "modulus_ratio", "bend_start", "bend_span",
    "bend_slope", "partial_factor", "load_factor",
)  # fmt: skip
_OFF = en.reduction_at_middle.titled("Eccentricity beyond the reach of the buckling curve").without_value(0.0)


def axial_use(building: Building, wall: Subject) -> Fact:
    """The greater of the two ratios of load to what the wall may carry that allow for slenderness."""
    need = Needs(wall)
    names = ("greatest_stress", "slender_allowable", "base_load", "eccentric_resistance")
    s, fa, n, nr = (need.number(f"wall.{name}") for name in names)
    if need.lacks:
        return need.lacking
    if min(fa, nr) <= 0:
        return need.worked(greatest_use.without_value(math.inf, s, fa, n, nr))
    return need.worked(greatest_use(s, fa, n, nr))


greatest_use = equation(
    "Greatest use under axial load", "max(stress / allowed, load / resistance)", Symbol(""),
    "the worse of the two forms above",
    stress=Symbol("σ", "stress"), allowed=Symbol("F_a", "stress"), load=Symbol("n", "line_load"),
    resistance=Symbol("N_Rd", "line_load"),
)  # fmt: skip

EQUATIONS = (
    height_that_counts, initial_eccentricity, whole_eccentricity, design_strength, greatest_use
)  # fmt: skip
