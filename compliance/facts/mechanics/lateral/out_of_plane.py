"""Wind and earthquake square to a wall: what it must take, the bending that follows, and whether the earth holds.

Moments are per length of wall [N·m/m = N] for a wall that spans upright, per height for one that spans sideways.
"""

from __future__ import annotations

from compliance.facts.mechanics.sections import need_not_negative, need_positive
from compliance.facts.mechanics.spans import uniform_moment
from compliance.steps import Given, Step

ASCE_WALL = "ASCE 7 out-of-plane force on structural walls (form: Taly, Design of Reinforced Masonry Structures, ch. 5)"


def seismic_wall_load(factor: float, sds: float, importance: float, weight: float, least_share: float) -> float:
    """max(factor × S_DS × I × W, least_share × W), in the unit of `weight` [Pa or N/m]; ASCE 7 has 0.4 and 0.1."""
    need_not_negative(factor=factor, sds=sds, weight=weight, least_share=least_share)
    need_positive(importance=importance)
    return max(factor * sds * importance * weight, least_share * weight)


def seismic_wall_load_step(
    factor: float, sds: float, importance: float, weight: float, least_share: float, kind: str = "pressure"
) -> Step:
    given = (
        Given("c", factor, "ratio", "factor of the code"),
        Given("S_DS", sds, "ratio", "design spectral acceleration, in g"),
        Given("I", importance, "ratio", "importance factor"),
        Given("W", weight, kind, "weight of the wall"),
        Given("c_0", least_share, "ratio", "least share of the weight"),
    )
    value = seismic_wall_load(factor, sds, importance, weight, least_share)
    result = Given("F_p", value, kind, "earthquake load square to the wall")
    return Step("Earthquake load square to the wall", "max(c × S_DS × I × W, c_0 × W)", given, result, ASCE_WALL)


def service_load_step(load: float, factor: float, source: str, kind: str = "pressure") -> Step:
    """A strength-level load × factor: the level of allowable stresses (0.7 for earthquake, 0.6 for wind)."""
    need_not_negative(load=load, factor=factor)
    given = (Given("F", load, kind, "load at strength level"), Given("c", factor, "ratio", "factor of the combination"))
    return Step("Load at allowable-stress level", "c × F", given, Given("w", factor * load, kind, "load"), source)


def moment_with_offset_load(pressure: float, span: float, load: float, offset: float) -> float:
    """w L²/8 + P e/2 [N]: mid-height of a wall held at top and bottom, `load` [N/m] `offset` [m] off its middle on top.

    The signs that add are taken. The greatest moment lies a little above mid-height: see `greatest_moment`.
    """
    need_not_negative(pressure=pressure, load=load)
    return uniform_moment(pressure, span, 8) + load * abs(offset) / 2


def moment_with_offset_load_step(pressure: float, span: float, load: float, offset: float) -> Step:
    given = (
        Given("w", pressure, "pressure", "load square to the wall"),
        Given("L", span, "length", "height between supports"),
        Given("P", load, "line_load", "load on the wall's top"),
        Given("e", abs(offset), "thickness", "off the middle"),
    )
    result = Given("M", moment_with_offset_load(pressure, span, load, offset), "line_moment", "moment at mid-height")
    return Step("Moment at mid-height", "w × L² / 8 + P × e / 2", given, result, "statics; form: Taly, p. 392")


def greatest_moment(pressure: float, span: float, load: float, offset: float) -> float:
    """The greatest moment [N] of the same wall: w L²/8 + m/2 + m²/(2 w L²) with m = P e, or m itself, on top."""
    need_positive(span=span)
    need_not_negative(pressure=pressure, load=load)
    top, whole = load * abs(offset), pressure * span**2
    if whole <= 2 * top:
        return top
    return whole / 8 + top / 2 + top**2 / (2 * whole)


def greatest_moment_step(pressure: float, span: float, load: float, offset: float) -> Step:
    """The same, worked: in the height, or on top where the load's own moment is the greatest."""
    top = Given("m", load * abs(offset), "line_moment", "moment of the load on top")
    result = Given("M", greatest_moment(pressure, span, load, offset), "line_moment", "greatest moment")
    given = (
        Given("w", pressure, "pressure", "load square to the wall"),
        Given("L", span, "length", "height between supports"),
        top,
    )
    if result.value == top.value:
        return Step("Greatest moment, on top", "m", (top,), result, "statics")
    return Step("Greatest moment in the height", "w × L² / 8 + m / 2 + m² / (2 × w × L²)", given, result, "statics")


def cantilever_moment(pressure: float, height: float, top_force: float) -> float:
    """w h²/2 + F h [N] at the base of a wall with a free top, `top_force` [N/m] on it (a roof's thrust)."""
    need_not_negative(pressure=pressure, top_force=top_force)
    return uniform_moment(pressure, height, 2) + top_force * height


def cantilever_moment_step(pressure: float, height: float, top_force: float) -> Step:
    given = (
        Given("w", pressure, "pressure", "load square to the wall"),
        Given("h", height, "length", "height"),
        Given("F", top_force, "line_load", "sideways force on the top"),
    )
    result = Given("M", cantilever_moment(pressure, height, top_force), "line_moment", "moment at the base")
    return Step("Moment at the base, top free", "w × h² / 2 + F × h", given, result, "statics")


def flexural_tension(moment: float, pressed_by: float, thickness: float) -> float:
    """6 M/t² - N/t [Pa]; below zero the section stays pressed. `pressed_by` [N/m]: load that is sure to be there.

    For a wall that spans sideways nothing presses: `pressed_by` is zero.
    """
    need_positive(thickness=thickness)
    need_not_negative(pressed_by=pressed_by)
    return 6 * abs(moment) / thickness**2 - pressed_by / thickness


def flexural_tension_step(moment: float, pressed_by: float, thickness: float) -> Step:
    given = (
        Given("M", abs(moment), "line_moment", "bending moment"),
        Given("N", pressed_by, "line_load", "load sure to be there"),
        Given("t", thickness, "thickness", "thickness"),
    )
    result = Given("f_t", flexural_tension(moment, pressed_by, thickness), "stress", "tension from bending")
    return Step("Tension from bending", "6 × M / t² - N / t", given, result, "elastic bending of a solid wall")


def allowable_tension(rupture: float, safety: float) -> float:
    """Modulus of rupture over a factor of safety [Pa]."""
    need_not_negative(rupture=rupture)
    need_positive(safety=safety)
    return rupture / safety


def allowable_tension_step(rupture: float, safety: float) -> Step:
    given = (Given("R", rupture, "stress", "modulus of rupture"), Given("n", safety, "ratio", "factor of safety"))
    result = Given("F_t", allowable_tension(rupture, safety), "stress", "allowable tension")
    return Step("Allowable tension", "R / n", given, result, "by definition of a factor of safety")
