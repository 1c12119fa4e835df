"""Slender walls under axial load: the reduction with height over radius of gyration, and what it leaves."""

from __future__ import annotations

import math

from compliance.facts.mechanics.sections import need_not_negative, need_positive
from compliance.record import record
from compliance.steps import Given, Step

MASONRY_FORM = "axial slenderness as in TMS 402 (form: Taly, Design of Reinforced Masonry Structures, ch. 5)"


@record
class SlendernessCurve:
    """1 - (h/(short r))² up to h/r = bound, (tall r/h)² above. The masonry form has 140, 99 and 70."""

    short: float
    bound: float
    tall: float


@record
class AxialFactors:
    """Strength form: strength reduction φ, allowance for small eccentricity, depth of the stress block."""

    reduction: float
    eccentricity: float
    block: float


def radius_of_gyration(thickness: float) -> float:
    """t/√12 [m] of a solid rectangle."""
    need_positive(thickness=thickness)
    return thickness / math.sqrt(12)


def slenderness_factor(height: float, radius: float, curve: SlendernessCurve) -> float:
    """Share of the axial strength that is left at effective `height` [m]; between 0 and 1.

    With 140, 99, 70 the two branches differ by 5e-9 at h/r = 99: the published form, not mended here.
    """
    need_not_negative(height=height)
    need_positive(radius=radius, short=curve.short, bound=curve.bound, tall=curve.tall)
    if height / radius <= curve.bound:
        return max(1 - (height / (curve.short * radius)) ** 2, 0.0)
    return min((curve.tall * radius / height) ** 2, 1.0)


def height_at_bound(radius: float, curve: SlendernessCurve) -> float:
    """Effective height [m] at which the curve changes branch."""
    return curve.bound * radius


def slenderness_steps(height: float, thickness: float, curve: SlendernessCurve) -> tuple[Step, ...]:
    """Radius of gyration, h/r and the factor, worked."""
    radius = radius_of_gyration(thickness)
    high = Given("h", height, "length", "effective height")
    thick = Given("t", thickness, "thickness", "thickness")
    gyration = Given("r", radius, "thickness", "radius of gyration")
    ratio = height / radius
    if ratio <= curve.bound:
        formula, number = "1 - (h / (c × r))²", Given("c", curve.short, "ratio", f"h/r up to {curve.bound:g}")
    else:
        formula, number = "(c × r / h)²", Given("c", curve.tall, "ratio", f"h/r above {curve.bound:g}")
    factor = Given("C", slenderness_factor(height, radius, curve), "ratio", "share of strength left")
    return (
        Step("Radius of gyration", "t / √12", (thick,), gyration, "statics of a rectangular section"),
        Step("Slenderness", "h / r", (high, gyration), Given("λ", ratio, "ratio", "slenderness"), "by definition"),
        Step("Slenderness factor", formula, (number, high, gyration), factor, MASONRY_FORM),
    )


def allowable_axial_stress(strength: float, share: float, factor: float) -> float:
    """Fa = share × f'm × factor [Pa]; the masonry form has share 0.25."""
    need_not_negative(strength=strength, share=share, factor=factor)
    return share * strength * factor


def allowable_axial_step(strength: float, share: float, factor: float) -> Step:
    given = (
        Given("k", share, "ratio", "share of the strength"),
        Given("f'm", strength, "stress", "compressive strength"),
        Given("C", factor, "ratio", "slenderness factor"),
    )
    result = Given("F_a", allowable_axial_stress(strength, share, factor), "stress", "allowable axial stress")
    return Step("Allowable axial stress", "k × f'm × C", given, result, MASONRY_FORM)


def axial_strength(
    strength: float, area: float, steel_area: float, steel_yield: float, factor: float, factors: AxialFactors
) -> float:
    """φ e [β f'm (An - Ast) + fy Ast] C [N]. Without reinforcement `steel_area` is zero.

    Raises ValueError for an area not above zero or more steel than area.
    """
    need_positive(area=area)
    need_not_negative(strength=strength, steel_area=steel_area, steel_yield=steel_yield, factor=factor)
    if steel_area > area:
        raise ValueError("steel area must not exceed the net area")
    held = factors.block * strength * (area - steel_area) + steel_yield * steel_area
    return factors.reduction * factors.eccentricity * held * factor


def axial_strength_step(
    strength: float, area: float, steel_area: float, steel_yield: float, factor: float, factors: AxialFactors
) -> Step:
    given = (
        Given("φ", factors.reduction, "ratio", "strength reduction"),
        Given("a", factors.eccentricity, "ratio", "allowance for small eccentricity"),
        Given("β", factors.block, "ratio", "stress block"),
        Given("f'm", strength, "stress", "compressive strength"),
        Given("A_n", area, "section_area", "net area"),
        Given("A_st", steel_area, "section_area", "area of steel"),
        Given("f_y", steel_yield, "stress", "yield of steel"),
        Given("C", factor, "ratio", "slenderness factor"),
    )
    value = axial_strength(strength, area, steel_area, steel_yield, factor, factors)
    formula = "φ × a × (β × f'm × (A_n - A_st) + f_y × A_st) × C"
    return Step("Design axial strength", formula, given, Given("φP_n", value, "force", "axial strength"), MASONRY_FORM)


def flat_allowable_step(stress: float, thickness: float) -> Step:
    """Allowable load per length on the gross area [N/m]: allowable stress × thickness, no slenderness reduction."""
    need_positive(thickness=thickness)
    need_not_negative(stress=stress)
    given = (
        Given("F", stress, "stress", "allowable stress on the gross area"),
        Given("t", thickness, "thickness", "thickness"),
    )
    result = Given("n", stress * thickness, "line_load", "allowable load per length")
    return Step("Allowable load on the gross area", "F × t", given, result, "stress × section")
