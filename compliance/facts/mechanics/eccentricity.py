"""Eccentricity and buckling in the form of EN 1996-1-1: end and mid-height reduction factors.

Every figure of the standard is an argument. Cob and other unbaked earth creep and bend more than fired
masonry: take the curve for the modulus ratio that was measured, not the one for stiff masonry.
"""

from __future__ import annotations

from compliance.record import record
from compliance.rules.formulas.equations import Equation, Solved, equation
from compliance.rules.formulas.symbols import Symbol, need_positive, not_negative, positive, size
from compliance.steps import Source

EN_ENDS = Source("EN 1996-1-1, 5.5.1.1 and 6.1.2.2 (recalled)")
EN_MIDDLE = Source("EN 1996-1-1, Annex G (recalled)")


@record
class MiddleCurve:
    """u = (h/t - start) / (span - slope × e/t). For E = 1000 f: 2, 23, 37; for E = 700 f: 1.67, 19.3, 31."""

    start: float
    span: float
    slope: float


def _figure(symbol: str) -> Equation:
    return equation(
        f"Figure {symbol} of the buckling curve", "figure * sqrt(modulus_ratio)", Symbol(symbol), EN_MIDDLE,
        modulus_ratio=positive("R", "ratio", "modulus over strength"), figure=Symbol("k"),
    )  # fmt: skip


curve_start, curve_span, curve_slope = _figure("u_0"), _figure("u_1"), _figure("u_2")


def curve_figures(modulus_ratio: float, start: float, span: float, slope: float) -> tuple[Solved, Solved, Solved]:
    """Start, span and slope of the curve for any E/f, from u = (λ - start)/(span - slope × e/t), λ = h/t × √(f/E).

    Annex G has 0.063, 0.73 and 1.17. Raises ValueError for a ratio not above zero.
    """
    return curve_start(modulus_ratio, start), curve_span(modulus_ratio, span), curve_slope(modulus_ratio, slope)


_THICKNESS = positive("t", "thickness", "thickness")
_AT_MIDDLE = size("e_mk", "thickness", "eccentricity at mid-height")

initial_eccentricity = equation(
    "For walls out of true", "height / divisor", Symbol("e_init", "thickness"), EN_ENDS,
    height=positive("h", "length"), divisor=positive("d"),
)  # fmt: skip
"""The divisor is 450 in EN 1996-1-1."""

end_eccentricity = equation(
    "Eccentricity at the wall's end", "max(moment / load + sideways + initial, least_share * thickness)",
    Symbol("e_i", "thickness", "eccentricity"), EN_ENDS,
    moment=size("M", "line_moment", "moment from the bearing"), load=positive("N", "line_load", "load"),
    sideways=size("e_h", "thickness", "from horizontal loads"),
    initial=size("e_init", "thickness", "for walls out of true"), thickness=_THICKNESS,
    least_share=Symbol("c", "ratio", "least share of the thickness"),
)  # fmt: skip
"""The parts always add (the worse sign)."""


creep_eccentricity = equation(
    "Eccentricity from creep", "factor * creep * height / thickness * sqrt(thickness * eccentricity)",
    Symbol("e_k", "thickness", "creep"), EN_ENDS,
    factor=not_negative("k"), creep=not_negative("φ", "ratio", "creep"), height=positive("h", "length"),
    thickness=positive("t", "thickness"), eccentricity=size("e_m", "thickness", "at once"),
)  # fmt: skip
"""The factor is 0.002 in EN 1996-1-1 (recalled)."""

end_reduction = equation(
    "Reduction at the wall's end", "max(1 - 2 * eccentricity / thickness, 0)",
    Symbol("Φ_i", "ratio", "reduction at the wall's end"), EN_ENDS,
    eccentricity=size("e_i", "thickness", "eccentricity"), thickness=_THICKNESS,
)  # fmt: skip
"""Zero once the resultant has left the wall."""

resultant_outside = equation(
    "Resultant outside the wall at mid-height", "max(1 - 2 * eccentricity / thickness, 0)",
    Symbol("Φ_m", "ratio", "reduction"), EN_MIDDLE, eccentricity=_AT_MIDDLE, thickness=_THICKNESS,
)  # fmt: skip

buckling_parameter = equation(
    "Buckling parameter", "max((height / thickness - start) / (span - slope * eccentricity / thickness), 0)",
    Symbol("u", "ratio", "buckling parameter"), EN_MIDDLE,
    eccentricity=_AT_MIDDLE, height=positive("h", "length", "effective height"), thickness=_THICKNESS,
    start=Symbol("u_0", "ratio", "start of the curve"), span=Symbol("u_1", "ratio", "span of the curve"),
    slope=Symbol("u_2", "ratio", "slope of the curve"),
)  # fmt: skip
"""Zero for walls stockier than the curve's start."""

reduction_at_middle = equation(
    "Reduction at mid-height", "(1 - 2 * eccentricity / thickness) * exp(-(bend ** 2 / 2))",
    Symbol("Φ_m", "ratio", "reduction"), EN_MIDDLE,
    eccentricity=_AT_MIDDLE, thickness=_THICKNESS, bend=Symbol("u", "ratio", "buckling parameter"),
)  # fmt: skip


def within_curve(eccentricity: float, thickness: float, curve: MiddleCurve) -> bool:
    """Whether the curve has a value for it; a resultant outside the wall leaves nothing, which needs no curve."""
    outside = end_reduction(eccentricity, thickness) == 0
    return outside or curve.span - curve.slope * abs(eccentricity) / thickness > 0


def middle_lines(eccentricity: float, height: float, thickness: float, curve: MiddleCurve) -> tuple[Solved, ...]:
    """u and Φ_m. Where the resultant has left the wall Φ_m is zero and its line alone says so. Raises ValueError for an
    eccentricity beyond the reach of the curve."""
    if end_reduction(eccentricity, thickness) == 0:
        return (resultant_outside(eccentricity, thickness),)
    need_positive(height=height)
    if not within_curve(eccentricity, thickness, curve):
        raise ValueError("eccentricity beyond the reach of this buckling curve")
    bend = buckling_parameter(eccentricity, height, thickness, curve.start, curve.span, curve.slope)
    return bend, reduction_at_middle(eccentricity, thickness, bend)


resistance = equation(
    "Resistance", "reduction * thickness * design_strength", Symbol("N_Rd", "line_load", "resistance per length"),
    Source("EN 1996-1-1, 6.1.2.1 (recalled)"),
    reduction=Symbol("Φ", "ratio", "the lower reduction"), thickness=Symbol("t", "thickness", "thickness"),
    design_strength=Symbol("f_d", "stress", "design strength"),
)  # fmt: skip

EQUATIONS = (
    curve_start, curve_span, curve_slope, initial_eccentricity, end_eccentricity, creep_eccentricity, end_reduction,
    resultant_outside, buckling_parameter, reduction_at_middle, resistance,
)  # fmt: skip
