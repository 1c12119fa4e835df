"""Lintels over openings as simple spans under an even load: moment, force on each end and deflection."""

from __future__ import annotations

from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol, positive
from compliance.steps import Source

PRACTICE = Source("common practice, no source")

lintel_span = equation(
    "Span between the middles of the bearings", "clear_width + bearing", Symbol("L", "length", "span"), PRACTICE,
    clear_width=positive("c", "length", "clear width"), bearing=positive("a", "length", "bearing at each end"),
)  # fmt: skip
"""From the middle of one bearing to the middle of the other."""

_EVEN = Symbol("w", "line_load", "even load")
_SPAN = positive("L", "length", "span")

lintel_moment = equation(
    "Bending moment at midspan", "even * span ** 2 / 8",
    Symbol("M", "moment", "bending moment"), "statics", even=_EVEN, span=_SPAN,
)  # fmt: skip

force_on_end = equation(
    "Force on each end, greatest shear", "even * span / 2",
    Symbol("R", "force", "force on each end"), "statics", even=_EVEN, span=_SPAN,
)  # fmt: skip

lintel_sag = equation(
    "Sag at midspan", "5 * even * span ** 4 / (384 * modulus * second_moment)",
    Symbol("δ", "thickness", "sag"), "elastic bending", even=_EVEN, span=_SPAN,
    modulus=positive("E", "stress", "modulus of elasticity"),
    second_moment=positive("I", "second_moment", "second moment of area"),
)  # fmt: skip

EQUATIONS = (lintel_span, lintel_moment, force_on_end, lintel_sag)
