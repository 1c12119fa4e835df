"""What a rectangular section bears at the bounds: no load, the edge of the kern, the edge of the section.

By the statics of a rectangle: pressures N/(b d) (1 + 6 e/d), beyond the kern of d/6 a triangle over 3 (d/2 - e).
"""

from __future__ import annotations

import math

import pytest

from compliance.facts.mechanics.sections import (
    EdgeStresses,
    bending_stress,
    edge_stresses,
    greatest_edge_pressure,
    need_not_negative,
    need_positive,
    shear_stress_of_rectangle,
    within_kern,
)


@pytest.mark.parametrize("value", [0.0, -0.5, math.inf, -math.inf, math.nan])
def test_a_size_is_finite_and_above_zero(value: float) -> None:
    with pytest.raises(ValueError, match="clear width must be above zero"):
        need_positive(depth=1.0, clear_width=value)
    need_positive(depth=0.5, clear_width=5e-324)


@pytest.mark.parametrize("value", [-5e-324, -0.5, math.inf, math.nan])
def test_a_force_is_finite_and_not_below_zero(value: float) -> None:
    with pytest.raises(ValueError, match="force must not be below zero"):
        need_not_negative(off=0.5, force=value)
    need_not_negative(off=0.0, force=0.5)


@pytest.mark.parametrize(("off", "within"), [(0.0, True), (1.0, True), (1 + 0.95e-12, True), (1 + 1.05e-12, False)])
def test_the_kern_reaches_a_sixth_of_the_depth_but_for_last_digits(off: float, within: bool) -> None:
    assert within_kern(off, 6.0) is within
    assert within_kern(-off, 6.0) is within


def test_a_resultant_just_past_the_last_digit_of_the_kern_is_outside() -> None:
    assert within_kern(1 + 1e-12, 6.0)
    assert not within_kern(math.nextafter(1 + 1e-12, 2), 6.0)


@pytest.mark.parametrize(
    ("force", "off", "found"),
    [  # of a section 6 m deep and 2 m wide
        (0.0, 0.0, EdgeStresses(0.0, 0.0, 6.0)),
        (0.0, 5.0, EdgeStresses(0.0, 0.0, 6.0)),  # no load, wherever it is said to stand
        (1.0, 0.0, EdgeStresses(1 / 12, 1 / 12, 6.0)),
        (12.0, 1.0, EdgeStresses(2.0, 0.0, 6.0)),  # on the edge of the kern
        (12.0, -1.0, EdgeStresses(2.0, 0.0, 6.0)),
        (12.0, 1 + 0.95e-12, EdgeStresses(2.0, 0.0, 6.0)),
        (12.0, 2.0, EdgeStresses(4.0, 0.0, 3.0)),
        (12.0, 2.875, EdgeStresses(32.0, 0.0, 0.375)),
        (12.0, 3.0, EdgeStresses(math.inf, 0.0, 0.0)),  # on the edge of the section
        (12.0, 3.5, EdgeStresses(math.inf, 0.0, 0.0)),
    ],
)
def test_pressures_at_the_bounds(force: float, off: float, found: EdgeStresses) -> None:
    worked = edge_stresses(force, off, 6.0, 2.0)
    assert (worked.most, worked.least, worked.pressed) == pytest.approx((found.most, found.least, found.pressed))
    assert worked.least >= 0


@pytest.mark.parametrize(
    ("force", "off", "formula", "says"),
    [
        (12.0, 1.0, "(N / (b × d)) × (1 + 6 × e / d)", "within the middle third"),
        (12.0, 0.5, "(N / (b × d)) × (1 + 6 × e / d)", "within the middle third"),
        (0.0, 2.0, "(N / (b × d)) × (1 + 6 × e / d)", "whole section pressed"),
        (1.0, 2.0, "2 × N / (3 × b × (d / 2 − e))", "outside the middle third"),
        (12.0, 2.0, "2 × N / (3 × b × (d / 2 − e))", "outside the middle third"),
        (12.0, 3.0, "", "nothing balances it"),
    ],
)
def test_the_line_of_a_pressure_is_that_of_its_case(force: float, off: float, formula: str, says: str) -> None:
    step = greatest_edge_pressure(force, off, 6.0, 2.0).step()
    assert (step.formula, says in step.says) == (formula, True)
    assert {one.symbol: one.value for one in step.given} == {"N": force, "e": off, "d": 6.0, "b": 2.0}
    assert step.result.value == edge_stresses(force, off, 6.0, 2.0).most


def test_bending_and_shear_of_a_solid_rectangle() -> None:
    """6 M/(b d²) = 6 × 6/(1 × 4) and 1.5 V/(b d) = 1.5 × 2/(0.5 × 3)."""
    assert bending_stress(6.0, 1.0, 2.0) == pytest.approx(9.0)
    assert shear_stress_of_rectangle(2.0, 0.5, 3.0) == pytest.approx(2.0)
