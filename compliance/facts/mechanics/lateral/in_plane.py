"""Earthquake and wind along a wall: base shear, shares under a loose roof, shear, tipping of each solid length.

For roofs stiff enough to turn as one see `torsion.py`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.facts.mechanics.lateral.rocking import stability_factor
from compliance.facts.mechanics.sections import EdgeStresses, edge_stresses, need_not_negative, need_positive
from compliance.record import record
from compliance.steps import Given, Step

ASCE_BASE_SHEAR = "ASCE 7, equivalent lateral force"


def seismic_coefficient(sds: float, reduction: float, importance: float, least: float) -> float:
    """C_s = max(S_DS/(R/I), least)."""
    need_positive(reduction=reduction, importance=importance)
    need_not_negative(sds=sds, least=least)
    return max(sds / (reduction / importance), least)


def base_shear_steps(sds: float, reduction: float, importance: float, least: float, weight: float) -> tuple[Step, ...]:
    """C_s and V = C_s W; `weight` [N] that shakes: roof, walls and what is fixed to them."""
    need_not_negative(weight=weight)
    value = seismic_coefficient(sds, reduction, importance, least)
    given = (
        Given("S_DS", sds, "ratio", "design spectral acceleration, in g"),
        Given("R", reduction, "ratio", "response modification"),
        Given("I", importance, "ratio", "importance factor"),
        Given("c_0", least, "ratio", "least coefficient"),
    )
    coefficient = Given("C_s", value, "ratio", "seismic coefficient")
    result = Given("V", value * weight, "force", "base shear")
    return (
        Step("Seismic coefficient", "max(S_DS / (R / I), c_0)", given, coefficient, ASCE_BASE_SHEAR),
        Step("Base shear", "C_s × W", (coefficient, Given("W", weight, "force", "weight")), result, ASCE_BASE_SHEAR),
    )


def wind_force_step(pressure: float, width: float, height: float) -> Step:
    """Wind along a line of bracing: pressure [Pa] on both faces together × the width and height [m] it collects."""
    need_not_negative(pressure=pressure, width=width, height=height)
    given = (
        Given("q", pressure, "pressure", "wind on both faces together"),
        Given("b", width, "length", "width collected"),
        Given("h", height, "length", "height collected"),
    )
    return Step(
        "Wind force", "q × b × h", given, Given("V", pressure * width * height, "force", "wind force"), "statics"
    )


def tributary_shares(total: float, widths: Sequence[float]) -> tuple[float, ...]:
    """Shares [N] of lines of bracing under a roof that does not turn as one, by the width [m] each has to brace.

    Raises ValueError when no width is above zero.
    """
    need_not_negative(total=total, **{f"width_{i + 1}": width for i, width in enumerate(widths)})
    whole = math.fsum(widths)
    need_positive(sum_of_widths=whole)
    return tuple(total * width / whole for width in widths)


def stiffness_over_modulus(height: float, length: float, thickness: float, bending: float, shear: float) -> float:
    """k/E = t/(bending × (h/L)³ + shear × h/L) [m] of one solid length.

    `bending` is 4 with a free top and 1 where both ends are kept from turning; `shear` is 1.2 E/G, so 3 for
    G = 0.4 E. Times E this is force over displacement.
    """
    need_positive(height=height, length=length, thickness=thickness, bending=bending)
    need_not_negative(shear=shear)
    slender = height / length
    return thickness / (bending * slender**3 + shear * slender)


def stiffness_step(height: float, length: float, thickness: float, bending: float, shear: float) -> Step:
    given = (
        Given("t", thickness, "thickness", "thickness"),
        Given("c_b", bending, "ratio", "bending: 4 free top, 1 both ends held"),
        Given("c_v", shear, "ratio", "shear: 1.2 E/G"),
        Given("h", height, "length", "height"),
        Given("L", length, "length", "solid length"),
    )
    value = stiffness_over_modulus(height, length, thickness, bending, shear)
    result = Given("k", value, "thickness", "stiffness over E")
    return Step("Stiffness over E", "t / (c_b × (h / L)³ + c_v × h / L)", given, result, "bending and shear of a pier")


def shear_stress(shear: float, thickness: float, length: float) -> float:
    """V/(t L) [Pa], the mean over one solid length."""
    need_positive(thickness=thickness, length=length)
    return abs(shear) / (thickness * length)


def shear_stress_step(shear: float, thickness: float, length: float) -> Step:
    given = (
        Given("V", abs(shear), "force", "shear"),
        Given("t", thickness, "thickness", "thickness"),
        Given("L", length, "length", "solid length"),
    )
    result = Given("v", shear_stress(shear, thickness, length), "stress", "mean shear stress")
    return Step("Shear stress", "V / (t × L)", given, result, "statics")


@record
class Tipping:
    """One solid length pushed along itself: moments [N·m], factor, hold-down force [N], pressures at its base."""

    overturning: float
    restoring: float
    factor: float
    hold_down: float
    base: EdgeStresses


def tipping(shear: float, height: float, dead: float, length: float, thickness: float, hold_arm: float) -> Tipping:
    """A solid length of wall with `shear` [N] at its top and `dead` [N] sure to be there, on its middle.

    Restoring is dead × L/2. What is lacking must come from a hold-down `hold_arm` [m] from the toe. The force of the
    wall's own mass acts lower: putting all of it at the top errs on the safe side. Earth at the toe: see `base`.
    """
    need_positive(height=height, length=length, thickness=thickness, hold_arm=hold_arm)
    need_not_negative(dead=dead)
    turns, stands = abs(shear) * height, dead * length / 2
    lever = turns / dead if dead else 0.0
    base = edge_stresses(dead, lever, length, thickness)
    return Tipping(turns, stands, stability_factor(stands, turns), max(turns - stands, 0.0) / hold_arm, base)


def tipping_steps(
    shear: float, height: float, dead: float, length: float, thickness: float, hold_arm: float
) -> tuple[Step, ...]:
    found = tipping(shear, height, dead, length, thickness, hold_arm)
    turning = Given("M_o", found.overturning, "moment", "overturning moment")
    holding = Given("M_r", found.restoring, "moment", "restoring moment")
    pushed = (Given("V", abs(shear), "force", "shear at the top"), Given("h", height, "length", "height"))
    kept = (Given("D", dead, "force", "dead load sure to be there"), Given("L", length, "length", "solid length"))
    arm = Given("a", hold_arm, "length", "hold-down from the toe")
    return (
        Step("Overturning moment", "V × h", pushed, turning, "statics"),
        Step("Restoring moment", "D × L / 2", kept, holding, "statics"),
        Step("Factor against tipping", "M_r / M_o" if found.overturning else "", (holding, turning),
             Given("n", found.factor, "ratio", "factor against tipping"), "statics"),
        Step("Hold-down force", "max(M_o - M_r, 0) / a", (turning, holding, arm),
             Given("T", found.hold_down, "force", "hold-down force"), "statics"),
    )  # fmt: skip


def solid_share(solid_lengths: Sequence[float], side: float) -> float:
    """Share of one side of the building that is solid wall. Raises ValueError when the parts exceed the side."""
    need_positive(side=side)
    need_not_negative(**{f"length_{i + 1}": length for i, length in enumerate(solid_lengths)})
    solid = math.fsum(solid_lengths)
    if solid > side * (1 + 1e-9):
        raise ValueError("solid lengths exceed the side they stand in")
    return min(solid / side, 1.0)
