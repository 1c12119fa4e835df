"""Forces along walls: base shear, stiffness, shear, tipping, solid lengths."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.facts.mechanics.lateral.in_plane import (
    base_shear,
    seismic_coefficient,
    shear_stress,
    solid_share,
    stiffness_over_modulus,
    tipping,
    tributary_shares,
)


def test_base_shear() -> None:
    assert seismic_coefficient(0.6, 1.5, 1.0, 0.01) == pytest.approx(0.4)
    assert seismic_coefficient(0.6, 1.5, 1.25, 0.01) == pytest.approx(0.5)
    assert seismic_coefficient(0.005, 1.5, 1.0, 0.01) == 0.01
    assert base_shear(seismic_coefficient(0.6, 1.5, 1.0, 0.01), 200_000.0) == pytest.approx(80_000)


@given(st.floats(0, 1e6), st.lists(st.floats(0, 20), min_size=1, max_size=8).filter(lambda widths: sum(widths) > 1e-3))
def test_shares_by_width_sum_to_the_base_shear(total: float, widths: list[float]) -> None:
    shares = tributary_shares(total, widths)
    assert math.fsum(shares) == pytest.approx(total, rel=1e-9, abs=1e-9)


def test_nothing_to_share_among() -> None:
    with pytest.raises(ValueError, match="widths"):
        tributary_shares(100.0, [0.0, 0.0])
    with pytest.raises(ValueError, match="width 2"):
        tributary_shares(100.0, [1.0, -1.0])


@pytest.mark.parametrize(
    ("slender", "free", "held"), [(0.5, 1 / 2.0, 1 / 1.625), (1.0, 1 / 7, 1 / 4), (2.0, 1 / 38, 1 / 14)]
)
def test_relative_stiffness_of_piers(slender: float, free: float, held: float) -> None:
    """1/(4 s³ + 3 s) with a free top, 1/(s³ + 3 s) with both ends held, s = h/L: usual masonry tables, recalled."""
    assert stiffness_over_modulus(slender, 1.0, 1.0, 4, 3) == pytest.approx(free)
    assert stiffness_over_modulus(slender, 1.0, 1.0, 1, 3) == pytest.approx(held)


def test_stiffness_is_that_of_a_timoshenko_cantilever() -> None:
    """h³/(3 E I) + 1.2 h/(G A) with G = 0.4 E (strength of materials)."""
    high, long, thick = 2.4, 1.7, 0.45
    bend, shear = high**3 / (3 * thick * long**3 / 12), 1.2 * high / (0.4 * thick * long)
    assert stiffness_over_modulus(high, long, thick, 4, 3) == pytest.approx(1 / (bend + shear))


def test_shear_stress() -> None:
    assert shear_stress(-36_000.0, 0.4, 1.8) == pytest.approx(50_000)


def test_tipping_by_hand() -> None:
    """30 kN at 2.4 m against 60 kN on 1.8 m: 72 against 54 kN·m, 18 kN·m short, 10 kN on an arm of 1.8 m."""
    found = tipping(30_000.0, 2.4, 60_000.0, 1.8, 0.4, 1.8)
    assert found.factor == pytest.approx(0.75)
    assert found.hold_down == pytest.approx(10_000)
    assert math.isinf(found.base.most)
    steady = tipping(-10_000.0, 2.4, 60_000.0, 1.8, 0.4, 1.8)
    assert steady.hold_down == 0.0
    assert steady.base.most == pytest.approx(2 * 60_000 / (3 * 0.4 * (0.9 - 0.4)))
    assert [float(one.step().result.value) for one in steady.lines] == [24_000, 54_000, steady.factor, 0]


def test_wall_that_nothing_holds_down() -> None:
    bare = tipping(1000.0, 2.4, 0.0, 1.8, 0.4, 1.8)
    assert bare.factor == 0.0
    assert bare.hold_down == pytest.approx(2400 / 1.8)


def test_solid_share() -> None:
    assert solid_share([1.2, 2.4], 6.0) == pytest.approx(0.6)
    assert solid_share([], 6.0) == 0.0
    assert solid_share([0.1] * 60, 6.0) == 1.0
    assert solid_share([6.0 * (1 + 1e-9)], 6.0) == 1.0  # what summing lengths leaves is no more wall
    with pytest.raises(ValueError, match="exceed"):
        solid_share([6.0 * (1 + 1.05e-9)], 6.0)
    with pytest.raises(ValueError, match="exceed"):
        solid_share([4.0, 3.0], 6.0)
    with pytest.raises(ValueError, match="length 2"):
        solid_share([4.0, -1.0], 6.0)
