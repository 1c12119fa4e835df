"""Gables as rigid blocks and the beam under them, against values worked out by hand in pounds and feet (statics).

Gable of 12 ft base and 6 ft height over a wall of 8 ft, earth of 110 pcf and 100 psi, 16 psf on it, k = 0.6.
"""

from __future__ import annotations

import math

import pytest

from compliance.facts.mechanics.lateral.gables import (
    factor_of_strip,
    factor_of_triangle,
    inset_of_strip,
    inset_of_triangle,
    inset_of_whole,
    moment_under_gable,
    restoring_whole,
    rise_of_slope,
    strips_of,
    turning_whole,
    weight_of_gable,
    weight_of_whole,
)

FT, LBF = 0.3048, 4.4482216152605
PSF, PSI = LBF / FT**2, 6894.757293168
FT_LBF = FT * LBF
B, H, HIGH, K, F, W = 12 * FT, 6 * FT, 8 * FT, 0.6, 100 * PSI, 16 * PSF


def face(inches: float) -> float:
    return 110 * PSF * inches / 12


@pytest.mark.parametrize(
    ("inches", "triangle", "strip"), [(16, 1.791, 1.166), (12, 1.008, 0.6560), (10, 0.6997, 0.4556)]
)
def test_triangle_and_highest_strip_at_the_eaves(inches: float, triangle: float, strip: float) -> None:
    thick, weight = inches / 12 * FT, face(inches)
    of_triangle = factor_of_triangle(K, weight, thick, inset_of_triangle(weight, H, F), W, H)
    of_strip = factor_of_strip(K, weight, thick, inset_of_strip(weight, H, F), W, H)
    assert (of_triangle, of_strip) == pytest.approx((triangle, strip), rel=5e-4)


def test_the_whole_wall_where_nothing_ties_the_eaves() -> None:
    weight = weight_of_whole(face(16), B, HIGH, H)
    inset = inset_of_whole(weight, F, B)
    turns, stands = turning_whole(W, B, HIGH, H), restoring_whole(K, weight, 16 / 12 * FT, inset)
    assert weight / LBF == pytest.approx(19360, rel=1e-4)
    assert inset / FT == pytest.approx(0.05602, rel=1e-3)
    assert turns / FT_LBF == pytest.approx(11904, rel=1e-4)
    assert stands / FT_LBF == pytest.approx(7093, rel=1e-3)
    assert stands / turns == pytest.approx(0.5959, rel=1e-3)


def test_the_beam_under_the_gable() -> None:
    """2628 lb ft; the same by adding up the load along the beam in small steps."""
    found = moment_under_gable(W, HIGH, B, H) / FT_LBF
    assert found == pytest.approx(2628, rel=1e-3)
    steps, half = 20000, 6.0
    total = 0.0
    for place in range(steps):
        x = half * (place + 0.5) / steps
        total += 16 * (8 + x) ** 2 / (2 * 8) * x * half / steps  # the height of gable over the beam is x at 45 degrees
    assert found == pytest.approx(total, rel=1e-6)


def test_height_from_the_slope_and_weight_of_the_triangle() -> None:
    assert rise_of_slope(B, math.tan(math.radians(45))) / FT == pytest.approx(6)
    assert weight_of_gable(face(16), B, H) / LBF == pytest.approx(110 * 16 / 12 * 12 * 6 / 2, rel=1e-4)


def test_strips_weigh_what_the_triangle_weighs() -> None:
    strips = strips_of(5280.0, 12.0)
    assert math.fsum(one.force for one in strips) == pytest.approx(5280)
    assert math.fsum(one.force * one.at for one in strips) / 5280 == pytest.approx(6)
    assert max(strips, key=lambda one: one.force).at == pytest.approx(6, abs=0.5)
    assert strips_of(0.0, 12.0) == []
