"""Loads square to masonry walls, against worked examples.

Source: N. Taly, Design of Reinforced Masonry Structures: force formula and anchorage p. 378-379, wall p. 385, moment
form p. 392, load level p. 405. The loads put into the form of p. 392 were chosen here; that
total is recomputed, not printed.
"""

from __future__ import annotations

import pytest

from compliance.facts.mechanics.anchorage import anchorage_force, force_at_top
from compliance.facts.mechanics.lateral.out_of_plane import (
    greatest_moment,
    seismic_wall_load,
    service_load,
)
from compliance.units import Writer

INCH = 0.0254
FOOT = 0.3048
POUND = 4.4482216152605
PSF = POUND / FOOT**2
PLF = POUND / FOOT


def test_wall_force_of_p_385() -> None:
    whole = 84 * 22.67 * PLF
    assert whole / PLF == pytest.approx(1904.28)
    force = seismic_wall_load(0.4, 1.0, 1.25, whole, 0.1)
    assert round(force / PLF) == 952
    assert seismic_wall_load(0.4, 1.0, 1.25, 84 * PSF, 0.1) / PSF == pytest.approx(42.0)
    along = seismic_wall_load.of_kinds(weight="line_load", result="line_load")
    step = along(0.4, 1.0, 1.25, whole, 0.1).step()
    assert step.result.value == force
    assert step.result.written(Writer("us")) == "952 plf"


def test_least_share_of_the_weight_governs_where_the_ground_shakes_little() -> None:
    assert seismic_wall_load(0.4, 0.10, 1.0, 84 * PSF, 0.1) == pytest.approx(8.4 * PSF)
    assert seismic_wall_load(0.4, 0.25, 1.0, 84 * PSF, 0.1) == pytest.approx(8.4 * PSF)
    assert seismic_wall_load(0.4, 0.26, 1.0, 84 * PSF, 0.1) > 8.4 * PSF


def test_allowable_level_of_p_405() -> None:
    """0.7 × 42 = 29.4 psf, above the 20 psf of wind, so earthquake governs; 10 ft of the wall weigh 840 lb/ft."""
    service = service_load(42 * PSF, 0.7)
    assert service / PSF == pytest.approx(29.4)
    assert max(service, 20 * PSF) == service
    half_way_up = 84 * PSF * 10 * FOOT
    assert half_way_up / PLF == pytest.approx(840)


def test_moment_form_of_p_392() -> None:
    """The page takes w h²/8 + P e/2 at mid-height; the greatest, a little above it, adds (P e)²/(2 w h²) (statics)."""
    load, height, top = 29.4 * PSF, 20 * FOOT, 160 * PLF * 4 * INCH
    found = greatest_moment(load, height, 160 * PLF, 4 * INCH)
    assert (found - top**2 / (2 * load * height**2)) / POUND == pytest.approx(1496.67, abs=0.005)


def test_anchorage_of_p_378() -> None:
    """The largest of the force computed, 400 S_DS I and 280 lb/ft (ASCE 7-05)."""
    rule = {"per_sds": 400 * PLF, "least": 280 * PLF, "by_weight": 0.0}
    top = force_at_top(42 * PSF, 22.67 * FOOT, 0.0)
    assert top / PLF == pytest.approx(476.07)
    assert anchorage_force(top, sds=1.0, importance=1.25, **rule) / PLF == pytest.approx(500)
    assert anchorage_force(600 * PLF, sds=1.0, importance=1.25, **rule) / PLF == pytest.approx(600)
    assert anchorage_force(0.0, sds=0.5, importance=1.0, **rule) / PLF == pytest.approx(280)
