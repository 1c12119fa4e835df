"""Widths of strip footings against published figures; the source stands beside each."""

from __future__ import annotations

import pytest

from compliance.facts.mechanics.footings import plain_concrete_tension, required_width

INCH = 0.0254
FOOT = 0.3048
POUND = 4.4482216152605
PSF = POUND / FOOT**2
PSI = POUND / INCH**2
PLF = POUND / FOOT
BEARING = (1500, 2000, 2500, 3000, 3500, 4000)

# CABO 1995, Table 403.1: widths in inches for the soils above.
CABO = {
    "frame, 1 storey": (16, 12, 10, 8, 7, 6),
    "frame, 2 storeys": (19, 15, 12, 10, 8, 7),
    "frame, 3 storeys": (22, 17, 14, 11, 10, 9),
    "8 in solid masonry, 1 storey": (22, 17, 13, 11, 10, 9),
    "8 in solid masonry, 2 storeys": (31, 23, 19, 16, 13, 12),
    "8 in solid masonry, 3 storeys": (40, 30, 24, 20, 17, 15),
}


def test_wall_footing_exercise() -> None:
    """15,000 lb/ft on 3,000 psf: 5.0 ft (a published exercise in footing width)."""
    assert required_width(15_000 * PLF, 3_000 * PSF) / FOOT == pytest.approx(5.0)


def test_a_foot_of_footing() -> None:
    """CABO 1995: 12 in on 2,500 psf carries 2,500 lb/ft."""
    assert required_width(2_500 * PLF, 2_500 * PSF) / INCH == pytest.approx(12)


@pytest.mark.parametrize("row", CABO)
def test_table_widths_follow_load_over_bearing(row: str) -> None:
    """Every row of the table is one load over the soil's bearing, to less than the inch it is rounded to.

    The rows are not rounded alike (some up, some to the nearest), so no single rounding reproduces the table.
    """
    load = CABO[row][0] * INCH * BEARING[0] * PSF
    for bearing, printed in zip(BEARING, CABO[row], strict=True):
        assert abs(required_width(load, bearing * PSF) / INCH - printed) < 1


def test_earth_wall_worked_beforehand() -> None:
    """24 in × 8 ft × 110 pcf + 400 lb/ft = 2,160 lb/ft on 1,500 psf: 17.28 in."""
    load = (2 * 8 * 110 + 400) * PLF
    assert load / PLF == pytest.approx(2160)
    assert required_width(load, 1500 * PSF) / INCH == pytest.approx(17.28)


def test_plain_concrete_tension() -> None:
    """ACI 318, plain concrete: 5 √f'c in psi (recalled); 250 psi for 2,500 psi concrete."""
    assert plain_concrete_tension(2500 * PSI, 5, PSI) / PSI == pytest.approx(250)
