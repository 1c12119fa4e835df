"""Quantities on plain synthetic numbers; the units are those of the trade, converted here by hand."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.facts.mixes.quantities import OrderingPractice, quantities
from compliance.facts.soil.fractions import SoilError
from compliance.rules.formulas.numbers import whole_up

ROOT = Path(__file__).parents[2]
VALUES: dict[str, Any] = yaml.safe_load((ROOT / "rulesets/reference/mix-practice.yaml").read_text("utf-8"))["values"]
PRACTICE = OrderingPractice(
    waste=0.1, loose_for_wall=1.25, bucket=0.020, straw_dose=0.2, straw_density=50.0, bale_mass=15.0, water=0.3
)
PARTS = {"soil": 1.0, "sand": 3.0}


def test_ten_cubic_metres_of_wall() -> None:
    """10 × 1.25 × 1.1 = 13.75 m3 loose; a quarter soil; 687.5 buckets of 20 L; straw 2.75 m3 = 137.5 kg."""
    found = quantities(10.0, PARTS, PRACTICE, {"sand": 1600.0}, batch_buckets=8)
    soil, sand = found.materials
    assert found.loose_volume == pytest.approx(13.75)
    assert (soil.buckets, soil.mass, sand.buckets) == (172, None, 516)
    assert (soil.volume, sand.volume, sand.mass) == pytest.approx((3.4375, 10.3125, 16_500))
    assert (found.straw_volume, found.straw_mass) == pytest.approx((2.75, 137.5))
    assert found.bales == 10
    assert found.batches == 86
    assert found.water == pytest.approx(4.125)


def test_reference_figures_can_be_read() -> None:
    """Five US gallons are 18.927 L, forty pounds 18.144 kg (NIST SP 811)."""
    practice = OrderingPractice.from_values(VALUES)
    assert practice.bucket == pytest.approx(0.018927, abs=5e-7)
    assert practice.bale_mass == pytest.approx(18.144, abs=5e-4)
    assert practice.straw_dose == pytest.approx(1 / 5)
    assert practice.water is None
    found = quantities(1.0, PARTS, practice)
    assert found.water is None and found.batches is None


@settings(deadline=None)
@given(st.floats(0.01, 500), st.lists(st.floats(0.1, 20), min_size=1, max_size=4), st.floats(1, 5))
def test_nothing_is_lost_and_all_grows_with_the_wall(volume: float, parts: list[float], more: float) -> None:
    mix = {f"m{place}": part for place, part in enumerate(parts)}
    small, large = quantities(volume, mix, PRACTICE, batch_buckets=5), quantities(volume * more, mix, PRACTICE)
    assert sum(need.volume for need in small.materials) == pytest.approx(small.loose_volume)
    assert large.loose_volume == pytest.approx(more * small.loose_volume)
    assert small.batches is not None
    assert small.batches * 5 * PRACTICE.bucket >= small.loose_volume * (1 - 1e-8)
    for need, bigger in zip(small.materials, large.materials, strict=True):
        assert need.volume * (1 - 1e-8) <= need.buckets * PRACTICE.bucket < need.volume + PRACTICE.bucket * (1 + 1e-8)
        assert bigger.buckets >= need.buckets
    assert small.bales * PRACTICE.bale_mass >= small.straw_mass * (1 - 1e-8)


@pytest.mark.parametrize(("value", "whole"), [(0.0, 0), (0.1 + 0.2 + 2.7, 3), (3.0000000001, 3), (3.001, 4), (0.01, 1)])
def test_rounding_up_forgives_only_float_noise(value: float, whole: int) -> None:
    assert whole_up(value) == whole


def test_figures_that_make_no_sense_are_refused() -> None:
    with pytest.raises(SoilError, match="bucket"):
        replace(PRACTICE, bucket=0.0)
    with pytest.raises(SoilError, match="waste"):
        replace(PRACTICE, waste=-0.1)
    with pytest.raises(SoilError, match="water"):
        replace(PRACTICE, water=float("nan"))
    with pytest.raises(SoilError, match="volume of wall"):
        quantities(-1.0, PARTS, PRACTICE)
    with pytest.raises(SoilError, match="parts"):
        quantities(1.0, {"soil": 0.0}, PRACTICE)
    with pytest.raises(SoilError, match="batch"):
        quantities(1.0, PARTS, PRACTICE, batch_buckets=0)
    with pytest.raises(SoilError, match="bulk density"):
        quantities(1.0, PARTS, PRACTICE, {"soil": 0.0})
