"""Modulus of rupture from a bent specimen."""

from __future__ import annotations

from compliance.facts.mechanics.sections import need_not_negative, need_positive
from compliance.steps import Given, Step

CENTRE_LOAD = "14.7.4.11 D NMAC; the same form as ASTM tests of brick (recalled)"
OWN_WEIGHT = "bending of a simple beam under a load at midspan and an even load"
THIRD_POINT = "third-point form with the specimen's own weight (Masonry Magazine, reported)"


def rupture_at_centre(force: float, span: float, width: float, thickness: float) -> float:
    """3 P L/(2 b t²) [Pa] of a specimen loaded at midspan; its own weight is left out, which errs low."""
    need_positive(span=span, width=width, thickness=thickness)
    need_not_negative(force=force)
    return 3 * force * span / (2 * width * thickness**2)


def rupture_at_centre_step(force: float, span: float, width: float, thickness: float) -> Step:
    given = (
        Given("P", force, "force", "force at rupture"),
        Given("L", span, "thickness", "distance between supports"),
        Given("b", width, "thickness", "width"),
        Given("t", thickness, "thickness", "thickness"),
    )
    value = rupture_at_centre(force, span, width, thickness)
    return Step("Modulus of rupture, load at midspan", "3 × P × L / (2 × b × t²)", given,
                Given("R", value, "stress", "modulus of rupture"), CENTRE_LOAD)  # fmt: skip


def rupture_at_centre_with_weight(force: float, weight: float, span: float, width: float, thickness: float) -> float:
    """3 (P + Ps/2) L/(2 b t²) [Pa], loaded at midspan, `weight` [N] that of the specimen between supports: at midspan
    an even load Ps bends half as much as the same force P there."""
    need_not_negative(weight=weight)
    return rupture_at_centre(force + weight / 2, span, width, thickness)


def rupture_at_centre_with_weight_step(
    force: float, weight: float, span: float, width: float, thickness: float
) -> Step:
    given = (
        Given("P", force, "force", "force at rupture"),
        Given("P_s", weight, "force", "weight of the specimen between supports"),
        Given("L", span, "thickness", "distance between supports"),
        Given("b", width, "thickness", "width"),
        Given("t", thickness, "thickness", "thickness"),
    )
    value = rupture_at_centre_with_weight(force, weight, span, width, thickness)
    formula = "3 × (P + 0.5 × P_s) × L / (2 × b × t²)"
    return Step("Modulus of rupture, load at midspan and own weight", formula, given,
                Given("R", value, "stress", "modulus of rupture"), OWN_WEIGHT)  # fmt: skip


def rupture_at_thirds(force: float, weight: float, span: float, width: float, depth: float) -> float:
    """(P + 0.75 Ps) L/(b d²) [Pa], loaded at the third points, `weight` [N] that of the specimen between supports."""
    need_positive(span=span, width=width, depth=depth)
    need_not_negative(force=force, weight=weight)
    return (force + 0.75 * weight) * span / (width * depth**2)


def rupture_at_thirds_step(force: float, weight: float, span: float, width: float, depth: float) -> Step:
    given = (
        Given("P", force, "force", "force at rupture"),
        Given("P_s", weight, "force", "weight of the specimen between supports"),
        Given("L", span, "thickness", "distance between supports"),
        Given("b", width, "thickness", "width"),
        Given("d", depth, "thickness", "depth"),
    )
    value = rupture_at_thirds(force, weight, span, width, depth)
    return Step("Modulus of rupture, load at third points", "(P + 0.75 × P_s) × L / (b × d²)", given,
                Given("R", value, "stress", "modulus of rupture"), THIRD_POINT)  # fmt: skip
