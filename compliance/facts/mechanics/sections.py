"""Rectangles under a force: section values, the kern, and edge stresses without tension."""

from __future__ import annotations

import math

from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, need_not_negative, need_positive, not_negative, positive, size

STATICS = "statics of a rectangular section"


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


_FORCE = not_negative("N", "force", "load")
_OFF = size("e", "thickness", "eccentricity of the load")
_DEPTH = positive("d", "thickness", "depth of the section")
_WIDTH = positive("b", "length", "width of the section")
_PRESSURE = Symbol("σ", "stress", "greatest pressure")

pressure_of_whole_section = equation(
    "Load within the middle third, whole section pressed; greatest pressure",
    "force / (width * depth) * (1 + 6 * off / depth)", _PRESSURE, STATICS,
    force=_FORCE, off=_OFF, depth=_DEPTH, width=_WIDTH,
)  # fmt: skip

pressure_of_open_section = equation(
    "Load outside the middle third, part of the section opens; greatest pressure",
    "2 * force / (3 * width * (depth / 2 - off))", _PRESSURE, STATICS + ", no tension",
    force=_FORCE, off=_OFF, depth=_DEPTH, width=_WIDTH,
)  # fmt: skip


def greatest_edge_pressure(force: float, eccentricity: float, depth: float, width: float) -> Solved:
    """Within the kern that of the whole section; beyond it that of a triangle on the pressed part, 3 (d/2 - e) deep.

    With the resultant at or outside the edge nothing balances it: infinite. Raises ValueError as `edge_stresses`.
    """
    need_positive(depth=depth, width=width)
    need_not_negative(force=force)
    off = abs(eccentricity)
    if within_kern(off, depth) or force == 0:
        return pressure_of_whole_section(force, off, depth, width)
    if off < depth / 2:
        return pressure_of_open_section(force, off, depth, width)
    outside = pressure_of_open_section.titled("Resultant outside the section: nothing balances it").sourced(STATICS)
    return outside.without_value(math.inf, force, off, depth, width)


def edge_stresses(force: float, eccentricity: float, depth: float, width: float) -> EdgeStresses:
    """Linear pressures under `force` [N], `eccentricity` [m] off the centre of `depth` [m].

    Raises ValueError for sizes not above zero and for a force below zero (a wall that is lifted has no pressure).
    """
    most, off = greatest_edge_pressure(force, eccentricity, depth, width), abs(eccentricity)
    if force == 0:
        return EdgeStresses(most, 0.0, depth)
    if within_kern(off, depth):
        return EdgeStresses(most, max(force / (width * depth) * (1 - 6 * off / depth), 0.0), depth)
    return EdgeStresses(most, 0.0, max(3 * (depth / 2 - off), 0.0))


bending_stress = equation(
    "Bending stress", "6 * moment / (width * depth ** 2)", Symbol("σ", "stress", "bending stress"), STATICS,
    moment=Symbol("M", "moment", "bending moment"),
    width=positive("b", "thickness", "width"), depth=positive("d", "thickness", "depth"),
)  # fmt: skip

shear_stress_of_rectangle = equation(
    "Shear stress", "1.5 * shear / (width * depth)", Symbol("τ", "stress", "greatest shear stress"), STATICS,
    shear=Symbol("V", "force", "shear force"),
    width=positive("b", "thickness", "width"), depth=positive("d", "thickness", "depth"),
)  # fmt: skip

EQUATIONS = (pressure_of_whole_section, pressure_of_open_section, bending_stress, shear_stress_of_rectangle)
