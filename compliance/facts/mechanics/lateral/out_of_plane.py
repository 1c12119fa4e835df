"""Wind and earthquake square to a wall: what it must take, the bending that follows, and whether the earth holds.

Moments are per length of wall [N·m/m = N] for a wall that spans upright, per height for one that spans sideways.
"""

from __future__ import annotations

from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, need_not_negative, need_positive, not_negative, positive, size

ASCE_WALL = "ASCE 7 out-of-plane force on structural walls (form: Taly, Design of Reinforced Masonry Structures, ch. 5)"

seismic_wall_load = equation(
    "Earthquake load square to the wall", "max(factor * sds * importance * weight, least_share * weight)",
    Symbol("F_p", "pressure", "earthquake load square to the wall"), ASCE_WALL,
    factor=not_negative("c", "ratio", "factor of the code"),
    sds=not_negative("S_DS", "ratio", "design spectral acceleration, in g"),
    importance=positive("I", "ratio", "importance factor"),
    weight=not_negative("W", "pressure", "weight of the wall"),
    least_share=not_negative("c_0", "ratio", "least share of the weight"),
)  # fmt: skip
"""ASCE 7 has 0.4 for the factor and 0.1 for the least share."""

service_load = equation(
    "Load at allowable-stress level", "factor * load", Symbol("w", "pressure", "load"), "ASCE 7 section 2.4",
    load=not_negative("F", "pressure", "load at strength level"),
    factor=not_negative("c", "ratio", "factor of the combination"),
)  # fmt: skip
"""A strength-level load at the level of allowable stresses (0.7 for earthquake, 0.6 for wind)."""

_PRESSURE = not_negative("w", "pressure", "load square to the wall")
_SPAN = positive("L", "length", "height between supports")


_ON_TOP = Symbol("m", "line_moment", "moment of the load on top")
_GREATEST = Symbol("M", "line_moment", "greatest moment")

greatest_in_height = equation(
    "Greatest moment in the height", "pressure * span ** 2 / 8 + top / 2 + top ** 2 / (2 * pressure * span ** 2)",
    _GREATEST, "statics", pressure=_PRESSURE, span=_SPAN, top=_ON_TOP,
)  # fmt: skip
greatest_on_top = equation("Greatest moment, on top", "top", _GREATEST, "statics", top=_ON_TOP)


def greatest_moment(pressure: float, span: float, load: float, offset: float) -> Solved:
    """The greatest moment [N] of the same wall, in its height or on top, where the load's own moment may be greater."""
    need_positive(span=span)
    need_not_negative(pressure=pressure, load=load)
    top = load * abs(offset)
    return greatest_on_top(top) if pressure * span**2 <= 2 * top else greatest_in_height(pressure, span, top)


cantilever_moment = equation(
    "Moment at the base, top free", "pressure * height ** 2 / 2 + top_force * height",
    Symbol("M", "line_moment", "moment at the base"), "statics",
    pressure=_PRESSURE, height=positive("h", "length", "height"),
    top_force=not_negative("F", "line_load", "sideways force on the top"),
)  # fmt: skip
"""`top_force` is a roof's thrust."""

flexural_tension = equation(
    "Tension from bending", "6 * moment / thickness ** 2 - pressed_by / thickness",
    Symbol("f_t", "stress", "tension from bending"), "elastic bending of a solid wall",
    moment=size("M", "line_moment", "bending moment"),
    pressed_by=Symbol("N", "line_load", "load sure to be there, below zero where wind lifts more"),
    thickness=positive("t", "thickness", "thickness"),
)  # fmt: skip
"""Below zero the section stays pressed. For a wall that spans sideways nothing presses: `pressed_by` is zero."""

allowable_tension = equation(
    "Allowable tension", "rupture / safety", Symbol("F_t", "stress", "allowable tension"),
    "by definition of a factor of safety",
    rupture=not_negative("R", "stress", "modulus of rupture"), safety=positive("n", "ratio", "factor of safety"),
)  # fmt: skip

EQUATIONS = (
    seismic_wall_load, service_load, greatest_in_height, greatest_on_top, cantilever_moment,
    flexural_tension, allowable_tension,
)  # fmt: skip
