"""Modulus of rupture from a bent specimen."""

from __future__ import annotations

from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol, not_negative, positive
from compliance.steps import Source

CENTRE_LOAD = Source("14.7.4.11 D NMAC; the same form as ASTM tests of brick (recalled)")
OWN_WEIGHT = "bending of a simple beam under a load at midspan and an even load"
THIRD_POINT = Source("third-point form with the specimen's own weight (Masonry Magazine, reported)")

_RUPTURE = Symbol("R", "stress", "modulus of rupture")
_FORCE = not_negative("P", "test_load", "force at rupture")
_WEIGHT = not_negative("P_s", "test_load", "weight of the specimen between supports")
_SPAN = positive("L", "specimen_length", "distance between supports")
_WIDTH = positive("b", "specimen_length", "width")
_THICKNESS = positive("t", "specimen_length", "thickness")
_DEPTH = positive("d", "specimen_length", "depth")

rupture_at_centre = equation(
    "Modulus of rupture, load at midspan", "3 * force * span / (2 * width * thickness ** 2)", _RUPTURE, CENTRE_LOAD,
    force=_FORCE, span=_SPAN, width=_WIDTH, thickness=_THICKNESS,
)  # fmt: skip
"""Loaded at midspan; the specimen's own weight is left out, which errs low."""

rupture_at_centre_with_weight = equation(
    "Modulus of rupture, load at midspan and own weight",
    "3 * (force + 0.5 * weight) * span / (2 * width * thickness ** 2)", _RUPTURE, OWN_WEIGHT,
    force=_FORCE, weight=_WEIGHT, span=_SPAN, width=_WIDTH, thickness=_THICKNESS,
)  # fmt: skip
"""At midspan an even load bends half as much as the same force there."""

rupture_at_thirds = equation(
    "Modulus of rupture, load at third points", "(force + 0.75 * weight) * span / (width * depth ** 2)", _RUPTURE,
    THIRD_POINT, force=_FORCE, weight=_WEIGHT, span=_SPAN, width=_WIDTH, depth=_DEPTH,
)  # fmt: skip

rupture_at_thirds_without_weight = equation(
    "Modulus of rupture, load at third points", "force * span / (width * depth ** 2)", _RUPTURE,
    THIRD_POINT, force=_FORCE, span=_SPAN, width=_WIDTH, depth=_DEPTH,
)  # fmt: skip

EQUATIONS = (
    rupture_at_centre, rupture_at_centre_with_weight, rupture_at_thirds, rupture_at_thirds_without_weight
)  # fmt: skip
