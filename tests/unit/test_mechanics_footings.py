"""Footings: pressures, projections and frost from statics."""

from __future__ import annotations

import math

import pytest

from compliance.facts.mechanics.beams import SimpleBeam, uniform
from compliance.facts.mechanics.footings import (
    greatest_soil_pressure,
    net_bearing,
    projection,
    projection_stresses,
    required_width,
)
from compliance.facts.mechanics.sections import section_modulus


def test_footing_carries_itself_too() -> None:
    net = net_bearing(71_820.0, 0.25, 2400.0)
    assert net == pytest.approx(71_820 - 2400 * 9.80665 * 0.25)
    width = required_width(40_000.0, net)
    assert (40_000 + 2400 * 9.80665 * 0.25 * width) / width == pytest.approx(71_820)
    with pytest.raises(ValueError, match="uses up"):
        net_bearing(5000.0, 0.25, 2400.0)
    with pytest.raises(ValueError, match="uses up"):  # all of it, nothing left
        net_bearing(1.0 * 9.80665 * 0.5, 0.5, 1.0)
    assert net_bearing(1.0 * 9.80665 * 0.5 + 0.25, 0.5, 1.0) == pytest.approx(0.25)


def test_a_footing_without_load_presses_on_nothing() -> None:
    """Off the middle third too: n / B × (1 + 6 × e / B) is zero, and no part lifts."""
    found = greatest_soil_pressure(0.0, 0.15, 0.6)
    assert found == 0 and found.step().formula == "(n / B) × (1 + 6 × e / B)"
    assert "lifts" in greatest_soil_pressure(1.0, 0.15, 0.6).step().says


def test_off_centre_wall_presses_harder() -> None:
    assert greatest_soil_pressure(30_000.0, 0.0, 0.6) == pytest.approx(50_000)
    assert greatest_soil_pressure(30_000.0, 0.05, 0.6) == pytest.approx(75_000)
    assert greatest_soil_pressure(30_000.0, -0.2, 0.6) == pytest.approx(2 * 30_000 / 0.3)
    assert greatest_soil_pressure(30_000.0, 0.3, 0.6) == math.inf


def test_projection_bends_like_half_of_a_beam_twice_as_long() -> None:
    """A cantilever of length a under even load has the moment of a simple span of 2 a: q a²/2."""
    found = projection_stresses(60_000.0, 0.3, 0.1, 0.2)
    moment = SimpleBeam(0.8, uniform(0.8, 60_000.0)).greatest_moment
    assert found.tension == pytest.approx(moment / section_modulus(1.0, 0.2))
    assert found.shear == pytest.approx(60_000 * 0.1 / 0.2)
    assert projection_stresses(60_000.0, 0.15, 0.0, 0.2).shear == 0.0
    assert projection_stresses(60_000.0, -0.1, 0.0, 0.2).tension == 0.0


def test_projection() -> None:
    assert projection(0.6, 0.4) == pytest.approx(0.1)
    assert projection(0.4, 0.6) == pytest.approx(-0.1)
