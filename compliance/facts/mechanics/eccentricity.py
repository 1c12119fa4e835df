"""Eccentricity and buckling in the form of EN 1996-1-1: end and mid-height reduction factors.

Every figure of the standard is an argument. Cob and other unbaked earth creep and bend more than fired
masonry: take the curve for the modulus ratio that was measured, not the one for stiff masonry.
"""

from __future__ import annotations

import math

from compliance.facts.mechanics.sections import need_not_negative, need_positive
from compliance.record import record
from compliance.steps import Given, Step

EN_ENDS = "EN 1996-1-1, 5.5.1.1 and 6.1.2.2 (recalled)"
EN_MIDDLE = "EN 1996-1-1, Annex G (recalled)"


@record
class MiddleCurve:
    """u = (h/t - start) / (span - slope × e/t). For E = 1000 f: 2, 23, 37; for E = 700 f: 1.67, 19.3, 31."""

    start: float
    span: float
    slope: float


def curve_for(modulus_ratio: float, start: float, span: float, slope: float) -> MiddleCurve:
    """The curve for any E/f from the general form u = (λ - start)/(span - slope × e/t), λ = h/t × √(f/E).

    Annex G has 0.063, 0.73 and 1.17. Raises ValueError for a ratio not above zero.
    """
    need_positive(modulus_ratio=modulus_ratio)
    root = math.sqrt(modulus_ratio)
    return MiddleCurve(start * root, span * root, slope * root)


def curve_steps(modulus_ratio: float, start: float, span: float, slope: float) -> tuple[Step, ...]:
    """The three figures of the curve, worked."""
    curve, ratio = (
        curve_for(modulus_ratio, start, span, slope),
        Given("R", modulus_ratio, "ratio", "modulus over strength"),
    )
    parts = (("u_0", start, curve.start), ("u_1", span, curve.span), ("u_2", slope, curve.slope))
    return tuple(
        Step(
            f"Figure {symbol} of the buckling curve",
            "k × √(R)",
            (Given("k", figure), ratio),
            Given(symbol, value),
            EN_MIDDLE,
        )
        for symbol, figure, value in parts
    )


def initial_eccentricity(height: float, divisor: float) -> float:
    """e_init = h_ef/divisor [m], for walls out of true; the divisor is 450 in EN 1996-1-1."""
    need_positive(height=height, divisor=divisor)
    return height / divisor


def end_eccentricity(
    moment: float, load: float, sideways: float, initial: float, thickness: float, least_share: float
) -> float:
    """e_i = M/N + e_he + e_init, at least `least_share` × t [m]; the parts always add (the worse sign).

    `moment` [N·m] from the bearing, `load` [N] at that end, `sideways` [m] from horizontal loads.
    Raises ValueError for a load or thickness not above zero.
    """
    need_positive(load=load, thickness=thickness)
    return max(abs(moment) / load + abs(sideways) + abs(initial), least_share * thickness)


def middle_eccentricity(
    moment: float, load: float, sideways: float, initial: float, creep: float, thickness: float, least_share: float
) -> float:
    """e_mk = M/N + e_hm + e_init + e_k at mid-height, at least `least_share` × t [m]; the parts always add."""
    return end_eccentricity(moment, load, abs(sideways) + abs(creep), initial, thickness, least_share)


def creep_eccentricity(factor: float, creep: float, height: float, thickness: float, eccentricity: float) -> float:
    """e_k = factor × φ∞ × h/t × √(t × e_m) [m]; the factor is 0.002 in EN 1996-1-1 (recalled)."""
    need_positive(thickness=thickness, height=height)
    need_not_negative(factor=factor, creep=creep)
    return factor * creep * height / thickness * math.sqrt(thickness * abs(eccentricity))


def end_reduction(eccentricity: float, thickness: float) -> float:
    """Φ_i = 1 - 2 e/t, and zero once the resultant has left the wall."""
    need_positive(thickness=thickness)
    return max(1 - 2 * abs(eccentricity) / thickness, 0.0)


def middle_reduction(eccentricity: float, height: float, thickness: float, curve: MiddleCurve) -> float:
    """Φ_m = (1 - 2 e/t) × exp(-u²/2); u counts as zero for walls stockier than the curve's start."""
    held = end_reduction(eccentricity, thickness)
    return held and held * math.exp(-(_bend(eccentricity, height, thickness, curve) ** 2) / 2)


def _bend(eccentricity: float, height: float, thickness: float, curve: MiddleCurve) -> float:
    need_positive(height=height)
    below = curve.span - curve.slope * abs(eccentricity) / thickness
    if below <= 0:
        raise ValueError("eccentricity beyond the reach of this buckling curve")
    return max((height / thickness - curve.start) / below, 0.0)


def resistance(reduction: float, thickness: float, design_strength: float) -> float:
    """N_Rd = Φ t f_d per length [N/m]."""
    return reduction * thickness * design_strength


def end_steps(
    moment: float, load: float, sideways: float, initial: float, thickness: float, least_share: float
) -> tuple[Step, ...]:
    """End eccentricity and Φ_i, worked; `moment` [N·m/m] and `load` [N/m] along the wall."""
    value = end_eccentricity(moment, load, sideways, initial, thickness, least_share)
    given = (
        Given("M", abs(moment), "line_moment", "moment from the bearing"),
        Given("N", load, "line_load", "load"),
        Given("e_h", abs(sideways), "thickness", "from horizontal loads"),
        Given("e_init", abs(initial), "thickness", "for walls out of true"),
        Given("c", least_share, "ratio", "least share of the thickness"),
        Given("t", thickness, "thickness", "thickness"),
    )
    found = Given("e_i", value, "thickness", "eccentricity")
    reduction = Given("Φ_i", end_reduction(value, thickness), "ratio", "reduction at the wall's end")
    return (
        Step("Eccentricity at the wall's end", "max(M / N + e_h + e_init, c × t)", given, found, EN_ENDS),
        Step("Reduction at the wall's end", "max(1 - 2 × e_i / t, 0)", (found, given[-1]), reduction, EN_ENDS),
    )


def middle_steps(eccentricity: float, height: float, thickness: float, curve: MiddleCurve) -> tuple[Step, ...]:
    """u and Φ_m, worked. Where the resultant has left the wall the only step says so."""
    off = Given("e_mk", abs(eccentricity), "thickness", "eccentricity at mid-height")
    thick = Given("t", thickness, "thickness", "thickness")
    reduction = Given("Φ_m", middle_reduction(eccentricity, height, thickness, curve), "ratio", "reduction")
    if end_reduction(eccentricity, thickness) == 0:
        return (Step("Resultant outside the wall at mid-height", "max(1 - 2 × e_mk / t, 0)", (off, thick), reduction,
                     EN_MIDDLE),)  # fmt: skip
    given = (
        Given("h", height, "length", "effective height"),
        thick,
        Given("u_0", curve.start, "ratio", "start of the curve"),
        Given("u_1", curve.span, "ratio", "span of the curve"),
        Given("u_2", curve.slope, "ratio", "slope of the curve"),
        off,
    )
    bend = Given("u", _bend(eccentricity, height, thickness, curve), "ratio", "buckling parameter")
    return (
        Step("Buckling parameter", "max((h / t - u_0) / (u_1 - u_2 × e_mk / t), 0)", given, bend, EN_MIDDLE),
        Step("Reduction at mid-height", "(1 - 2 × e_mk / t) × exp(-u² / 2)", (off, thick, bend), reduction, EN_MIDDLE),
    )


def resistance_step(reduction: float, thickness: float, design_strength: float) -> Step:
    given = (
        Given("Φ", reduction, "ratio", "the lower reduction"),
        Given("t", thickness, "thickness", "thickness"),
        Given("f_d", design_strength, "stress", "design strength"),
    )
    result = Given("N_Rd", resistance(reduction, thickness, design_strength), "line_load", "resistance per length")
    return Step("Resistance", "Φ × t × f_d", given, result, "EN 1996-1-1, 6.1.2.1 (recalled)")
