"""Slender walls under axial load: the reduction with height over radius of gyration, and what it leaves."""

from __future__ import annotations

from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, need_positive, not_negative, positive
from compliance.steps import Given

MASONRY_FORM = "axial slenderness as in TMS 402 (form: Taly, Design of Reinforced Masonry Structures, ch. 5)"


@record
class SlendernessCurve:
    """1 - (h/(short r))² up to h/r = bound, (tall r/h)² above. The masonry form has 140, 99 and 70."""

    short: float
    bound: float
    tall: float


radius_of_gyration = equation(
    "Radius of gyration", "thickness / sqrt(12)", Symbol("r", "thickness", "radius of gyration"),
    "statics of a rectangular section", thickness=positive("t", "thickness", "thickness"),
)  # fmt: skip

_HEIGHT = not_negative("h", "length", "effective height")
_RADIUS = positive("r", "thickness", "radius of gyration")

slenderness = equation(
    "Slenderness", "height / radius", Symbol("λ", "ratio", "slenderness"), "by definition",
    height=_HEIGHT, radius=_RADIUS,
)  # fmt: skip

factor_of_stocky_wall = equation(
    "Slenderness factor", "max(1 - (height / (short * radius)) ** 2, 0)",
    Symbol("C", "ratio", "share of strength left"), MASONRY_FORM, height=_HEIGHT, radius=_RADIUS, short=positive("c"),
)  # fmt: skip

factor_of_slender_wall = equation(
    "Slenderness factor", "min((tall * radius / height) ** 2, 1)",
    Symbol("C", "ratio", "share of strength left"), MASONRY_FORM, height=_HEIGHT, radius=_RADIUS, tall=positive("c"),
)  # fmt: skip


def slenderness_factor(height: float, radius: float, curve: SlendernessCurve) -> Solved:
    """Share of the axial strength that is left at effective `height` [m]; between 0 and 1.

    With 140, 99, 70 the two branches differ by 5e-9 at h/r = 99: the published form, not mended here.
    """
    need_positive(short=curve.short, bound=curve.bound, tall=curve.tall)
    if slenderness(height, radius) <= curve.bound:
        short = Given("c", curve.short, "ratio", f"h/r up to {curve.bound:g}")
        return factor_of_stocky_wall(height, radius, short)
    return factor_of_slender_wall(height, radius, Given("c", curve.tall, "ratio", f"h/r above {curve.bound:g}"))


def slenderness_lines(height: float, thickness: float, curve: SlendernessCurve) -> tuple[Solved, Solved, Solved]:
    """Radius of gyration, h/r and the factor."""
    radius = radius_of_gyration(thickness)
    return radius, slenderness(height, radius), slenderness_factor(height, radius, curve)


_STRENGTH = not_negative("f'm", "stress", "compressive strength")
_FACTOR = not_negative("C", "ratio", "slenderness factor")

allowable_axial_stress = equation(
    "Allowable axial stress", "share * strength * factor", Symbol("F_a", "stress", "allowable axial stress"),
    MASONRY_FORM, strength=_STRENGTH, share=not_negative("k", "ratio", "share of the strength"), factor=_FACTOR,
)  # fmt: skip
"""The masonry form has a share of 0.25."""


EQUATIONS = (radius_of_gyration, slenderness, factor_of_stocky_wall, factor_of_slender_wall, allowable_axial_stress)
