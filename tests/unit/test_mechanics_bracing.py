"""Forces along walls: base shear, stiffness, shear, tipping, solid lengths."""

from __future__ import annotations

import pytest

from compliance.facts.mechanics.lateral.in_plane import (
    base_shear,
    seismic_coefficient,
    shear_stress,
    solid_share,
    stiffness_over_modulus,
)


def test_base_shear() -> None:
    assert seismic_coefficient(0.6, 1.5, 1.0, 0.01) == pytest.approx(0.4)
    assert seismic_coefficient(0.6, 1.5, 1.25, 0.01) == pytest.approx(0.5)
    assert seismic_coefficient(0.005, 1.5, 1.0, 0.01) == 0.01
    assert base_shear(seismic_coefficient(0.6, 1.5, 1.0, 0.01), 200_000.0) == pytest.approx(80_000)


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
