"""Buttresses and returns as rigid blocks, against values worked out by hand in pounds and feet (statics).

Wall of 16 in and 8 ft, earth of 110 pcf and 100 psi, 16 psf on it, 12 ft of wall leaning on the support, k = 0.6. The
hand calculation takes moments about the edge of the base, set in by the strip that crushes.
"""

from __future__ import annotations

import pytest

from compliance.facts.mechanics.lateral.leaning import (
    edge_set_in,
    factor_against_sliding,
    overturned_by,
    pushed_by,
    resists_away,
    resists_sliding,
    resists_towards,
    weight_of_block,
)

FT, LBF = 0.3048, 4.4482216152605
PSF, PCF, PSI = LBF / FT**2, 16.018463373960142, 6894.757293168
FT_LBF = FT * LBF
T, H, K, F = 16 / 12 * FT, 8 * FT, 0.6, 100 * PSI


def moments(out: float, wide: float, high: float, flange: float) -> tuple[float, float]:
    """Towards and away [lb ft]; lengths in ft."""
    support = weight_of_block(110 * PCF, out * FT, wide * FT, high * FT)
    bonded = weight_of_block(110 * PCF, flange * FT, T, H)
    towards = edge_set_in(K, support, bonded, F, wide * FT)
    away = edge_set_in(K, support, bonded, F, flange * FT)
    return (
        resists_towards(K, support, out * FT, towards, bonded, T) / FT_LBF,
        resists_away(K, support, T, out * FT, away, bonded) / FT_LBF,
    )


def test_what_turns_the_support() -> None:
    assert overturned_by(16 * PSF, H, 12 * FT, 1.0) / FT_LBF == pytest.approx(6144, rel=1e-4)
    assert overturned_by(16 * PSF, H, 8 * FT, 1.0) / FT_LBF == pytest.approx(4096, rel=1e-4)


@pytest.mark.parametrize(
    ("out", "wide", "high", "towards", "away"),
    [
        (1.0, 8 / 12, 6.5, 3693, 2017),  # a pilaster 12 in deep and 8 in wide, 6 ft 6 in high
        (2.0, 16 / 12, 8.0, 8453, 5008),  # a buttress of 24 by 16 in
        (2.5, 16 / 12, 8.0, 10572, 6242),  # of 30 by 16 in
    ],
)
def test_what_resists(out: float, wide: float, high: float, towards: float, away: float) -> None:
    """Midway along a wall: a thickness of wall on either side goes with it."""
    assert moments(out, wide, high, wide + 2 * 16 / 12) == pytest.approx((towards, away), rel=5e-4)


def test_a_return_of_three_feet_has_wall_on_one_side_only() -> None:
    found = moments(3.0, 16 / 12, 8.0, 2 * 16 / 12)
    assert [one / 4096 for one in found] == pytest.approx([2.353, 1.716], rel=5e-4)


def test_sliding() -> None:
    """Buttress of 24 by 16 in: 2347 and 4693 lb; 0.4 x 0.6 x 7040 = 1690 lb over 16 x 8 x 12 / 2 = 768 lb."""
    support, bonded = 2346.7 * LBF, 4693.3 * LBF
    pushes = pushed_by(16 * PSF, H, 12 * FT, 0.5, 1.0)
    resists = resists_sliding.sourced("judgment")(0.4, K, support, bonded)
    assert pushes / LBF == pytest.approx(768, rel=1e-4)
    assert factor_against_sliding(resists, pushes) == pytest.approx(1689.6 / 768, rel=1e-4)


def test_at_an_angle_the_force_along_the_support_is_greater() -> None:
    """At 60 degrees 1.155 times, at 48 degrees 1.346 times."""
    for sine, times in ((0.8660254, 1.1547), (0.7431448, 1.3456)):
        assert pushed_by(16 * PSF, H, 12 * FT, 1.0, sine) / LBF == pytest.approx(1536 * times, rel=1e-3)
