"""Earthquake along a wall: base shear, stiffness and shear of each solid length.

For roofs stiff enough to turn as one see `torsion.py`, for overturning `rocking_piers.py`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

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
    seismic_coefficient, base_shear, stiffness_over_modulus, shear_stress, share_that_is_solid,
)  # fmt: skip
