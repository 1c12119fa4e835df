"""Rectangles under a force: section values, the kern, and edge stresses without tension."""

from __future__ import annotations

import math

from compliance.record import record
from compliance.steps import Given, Step

STATICS = "statics of a rectangular section"


def need_positive(**values: float) -> None:
    """Raises ValueError naming the first value that is not a finite number above zero."""
    for name, value in values.items():
        if not (value > 0 and math.isfinite(value)):
            raise ValueError(f"{name.replace('_', ' ')} must be above zero, not {value!r}")


def need_not_negative(**values: float) -> None:
    """Raises ValueError naming the first value that is below zero or not finite."""
    for name, value in values.items():
        if not (value >= 0 and math.isfinite(value)):
            raise ValueError(f"{name.replace('_', ' ')} must not be below zero, not {value!r}")


def section_modulus(width: float, depth: float) -> float:
    """b d²/6 [m³], bending across `depth` [m]."""
    return width * depth**2 / 6


def second_moment(width: float, depth: float) -> float:
    """b d³/12 [m⁴], bending across `depth` [m]."""
    return width * depth**3 / 12


def kern(depth: float) -> float:
    """d/6 [m]: how far the resultant may leave the centre before an edge opens."""
    return depth / 6


def within_kern(eccentricity: float, depth: float) -> bool:
    """Whether the whole section stays pressed. A resultant exactly on the kern's edge counts as within."""
    return abs(eccentricity) <= kern(depth) * (1 + 1e-12)


@record
class EdgeStresses:
    """Pressures [Pa] at the two edges and the depth [m] that stays pressed. No tension is counted on."""

    most: float
    least: float
    pressed: float


def edge_stresses(force: float, eccentricity: float, depth: float, width: float) -> EdgeStresses:
    """Linear pressures under `force` [N], `eccentricity` [m] off the centre of `depth` [m].

    Within the kern N/(b d) × (1 ± 6 e/d); beyond it the triangle 2 N/(3 b (d/2 - e)) on the pressed part.
    With the resultant at or outside the edge nothing balances it: `most` is infinite, `pressed` zero.
    Raises ValueError for sizes not above zero and for a force below zero (a wall that is lifted has no pressure).
    """
    need_positive(depth=depth, width=width)
    need_not_negative(force=force)
    off = abs(eccentricity)
    if force == 0:
        return EdgeStresses(0.0, 0.0, depth)
    if within_kern(off, depth):
        mean = force / (width * depth)
        return EdgeStresses(mean * (1 + 6 * off / depth), max(mean * (1 - 6 * off / depth), 0.0), depth)
    pressed = 3 * (depth / 2 - off)
    if pressed <= 0:
        return EdgeStresses(math.inf, 0.0, 0.0)
    return EdgeStresses(2 * force / (width * pressed), 0.0, pressed)


def edge_stress_step(force: float, eccentricity: float, depth: float, width: float) -> Step:
    """The greatest edge pressure as a worked line."""
    found = edge_stresses(force, eccentricity, depth, width)
    off = abs(eccentricity)
    given = (
        Given("N", force, "force", "load"),
        Given("e", off, "thickness", "eccentricity of the load"),
        Given("d", depth, "thickness", "depth of the section"),
        Given("b", width, "length", "width of the section"),
    )
    result = Given("σ", found.most, "stress", "greatest pressure")
    if within_kern(off, depth) or force == 0:
        says = "Load within the middle third, whole section pressed; greatest pressure"
        return Step(says, "N / (b × d) × (1 + 6 × e / d)", given, result, STATICS)
    if math.isinf(found.most):
        return Step("Resultant outside the section: nothing balances it", "", given, result, STATICS)
    says = "Load outside the middle third, part of the section opens; greatest pressure"
    return Step(says, "2 × N / (3 × b × (d / 2 - e))", given, result, STATICS + ", no tension")


def fibre_stresses(force: float, moment: float, depth: float, width: float) -> tuple[float, float]:
    """Elastic stresses [Pa] N/A + M/S and N/A - M/S, pressure above zero, tension below. Moment [N·m] unsigned."""
    need_positive(depth=depth, width=width)
    mean, bent = force / (width * depth), abs(moment) / section_modulus(width, depth)
    return mean + bent, mean - bent


def bending_stress_step(moment: float, width: float, depth: float, says: str = "Bending stress") -> Step:
    """σ = 6 M/(b d²) [Pa] of a solid rectangle. Raises ValueError for sizes not above zero."""
    need_positive(width=width, depth=depth)
    given = (
        Given("M", moment, "moment", "bending moment"),
        Given("b", width, "thickness", "width"),
        Given("d", depth, "thickness", "depth"),
    )
    result = Given("σ", moment / section_modulus(width, depth), "stress", "bending stress")
    return Step(says, "6 × M / (b × d²)", given, result, STATICS)


def shear_stress_step(shear: float, width: float, depth: float, says: str = "Shear stress") -> Step:
    """τ = 1.5 V/(b d) [Pa], the greatest in a solid rectangle. Raises ValueError for sizes not above zero."""
    need_positive(width=width, depth=depth)
    given = (
        Given("V", shear, "force", "shear force"),
        Given("b", width, "thickness", "width"),
        Given("d", depth, "thickness", "depth"),
    )
    result = Given("τ", 1.5 * shear / (width * depth), "stress", "greatest shear stress")
    return Step(says, "1.5 × V / (b × d)", given, result, STATICS)
