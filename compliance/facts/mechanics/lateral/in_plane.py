"""Earthquake and wind along a wall: base shear, shares under a loose roof, shear, tipping of each solid length.

For roofs stiff enough to turn as one see `torsion.py`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.facts.mechanics.lateral.rocking import stability_factor
from compliance.facts.mechanics.sections import EdgeStresses, edge_stresses
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, need_not_negative, need_positive, not_negative, positive, size

ASCE_BASE_SHEAR = "ASCE 7, equivalent lateral force"

seismic_coefficient = equation(
    "Seismic coefficient", "max(sds / (reduction / importance), least)",
    Symbol("C_s", "ratio", "seismic coefficient"), ASCE_BASE_SHEAR,
    sds=not_negative("S_DS", "ratio", "design spectral acceleration, in g"),
    reduction=positive("R", "ratio", "response modification"), importance=positive("I", "ratio", "importance factor"),
    least=not_negative("c_0", "ratio", "least coefficient"),
)  # fmt: skip

base_shear = equation(
    "Base shear", "coefficient * weight", Symbol("V", "force", "base shear"), ASCE_BASE_SHEAR,
    coefficient=Symbol("C_s", "ratio", "seismic coefficient"), weight=not_negative("W", "force", "weight"),
)  # fmt: skip
"""`weight` is all that shakes: roof, walls and what is fixed to them."""

wind_force = equation(
    "Wind force", "pressure * width * height", Symbol("V", "force", "wind force"), "statics",
    pressure=not_negative("q", "pressure", "wind on both faces together"),
    width=not_negative("b", "length", "width collected"), height=not_negative("h", "length", "height collected"),
)  # fmt: skip
"""Along a line of bracing."""


def tributary_shares(total: float, widths: Sequence[float]) -> tuple[float, ...]:
    """Shares [N] of lines of bracing under a roof that does not turn as one, by the width [m] each has to brace.

    Raises ValueError when no width is above zero.
    """
    need_not_negative(total=total, **{f"width_{i + 1}": width for i, width in enumerate(widths)})
    whole = math.fsum(widths)
    need_positive(sum_of_widths=whole)
    return tuple(total * width / whole for width in widths)


_HEIGHT = positive("h", "length", "height")
_LENGTH = positive("L", "length", "solid length")
_THICKNESS = positive("t", "thickness", "thickness")

stiffness_over_modulus = equation(
    "Stiffness over E", "thickness / (bending * (height / length) ** 3 + shear * (height / length))",
    Symbol("k", "thickness", "stiffness over E"), "bending and shear of a pier",
    height=_HEIGHT, length=_LENGTH, thickness=_THICKNESS,
    bending=positive("c_b", "ratio", "bending: 4 free top, 1 both ends held"),
    shear=not_negative("c_v", "ratio", "shear: 1.2 E/G"),
)  # fmt: skip
"""Of one solid length; times E it is force over displacement. `bending` is 4 with a free top and 1 where both ends are
kept from turning; `shear` is 1.2 E/G, so 3 for G = 0.4 E."""

shear_stress = equation(
    "Shear stress", "shear / (thickness * length)", Symbol("v", "stress", "mean shear stress"), "statics",
    shear=size("V", "force", "shear"), thickness=_THICKNESS, length=_LENGTH,
)  # fmt: skip
"""The mean over one solid length."""

_OVERTURNING = Symbol("M_o", "moment", "overturning moment")
_RESTORING = Symbol("M_r", "moment", "restoring moment")

moment_of_shear = equation(
    "Overturning moment", "shear * height", _OVERTURNING, "statics",
    shear=size("V", "force", "shear at the top"), height=_HEIGHT,
)  # fmt: skip

moment_of_dead_load = equation(
    "Restoring moment", "dead * length / 2", _RESTORING, "statics",
    dead=not_negative("D", "force", "dead load sure to be there"), length=_LENGTH,
)  # fmt: skip

hold_down_force = equation(
    "Hold-down force", "max(overturning - restoring, 0) / arm", Symbol("T", "force", "hold-down force"), "statics",
    overturning=_OVERTURNING, restoring=_RESTORING, arm=positive("a", "length", "hold-down from the toe"),
)  # fmt: skip


@record
class Tipping:
    """One solid length pushed along itself: moments [N·m], factor, hold-down force [N], pressures at its base."""

    overturning: Solved
    restoring: Solved
    factor: Solved
    hold_down: Solved
    base: EdgeStresses

    @property
    def lines(self) -> tuple[Solved, ...]:
        return self.overturning, self.restoring, self.factor, self.hold_down


def tipping(shear: float, height: float, dead: float, length: float, thickness: float, hold_arm: float) -> Tipping:
    """A solid length of wall with `shear` [N] at its top and `dead` [N] sure to be there, on its middle.

    Restoring is dead × L/2. What is lacking must come from a hold-down `hold_arm` [m] from the toe. The force of the
    wall's own mass acts lower: putting all of it at the top errs on the safe side. Earth at the toe: see `base`.
    """
    need_positive(height=height, length=length, thickness=thickness, hold_arm=hold_arm)
    turns, stands = moment_of_shear(shear, height), moment_of_dead_load(dead, length)
    base = edge_stresses(dead, turns / dead if dead else 0.0, length, thickness)
    factor = stability_factor(stands, turns, "moment", "statics")
    return Tipping(turns, stands, factor, hold_down_force(turns, stands, hold_arm), base)


share_that_is_solid = equation(
    "Solid share of the side", "min(solid / side, 1)", Symbol("", "share"), "from the plan",
    solid=not_negative("Σb", "length", "solid lengths"), side=positive("ΣL", "length", "whole lengths"),
)  # fmt: skip


def solid_share(solid_lengths: Sequence[float], side: float, title: str = share_that_is_solid.title) -> Solved:
    """Share of one side of the building that is solid wall. Raises ValueError when the parts exceed the side."""
    need_positive(side=side)
    need_not_negative(**{f"length_{i + 1}": length for i, length in enumerate(solid_lengths)})
    solid = math.fsum(solid_lengths)
    if solid > side * (1 + 1e-9):
        raise ValueError("solid lengths exceed the side they stand in")
    return share_that_is_solid.titled(title)(solid, side)


EQUATIONS = (
    seismic_coefficient, base_shear, wind_force, stiffness_over_modulus, shear_stress, moment_of_shear,
    moment_of_dead_load, hold_down_force, share_that_is_solid,
)  # fmt: skip
