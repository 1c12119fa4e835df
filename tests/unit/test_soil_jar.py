"""Jar readings on plain synthetic numbers. Times rest on Stokes' law, tested against published values elsewhere."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.facts.soil.fractions import GrainSizes, SoilError
from compliance.facts.soil.jar_test import Jar, JarPractice, LayerMark, read_jar
from compliance.facts.soil.settling import Settling, reading_schedule, settling_time
from compliance.facts.soil.water_properties import water_at

ROOT = Path(__file__).parents[2]
VALUES: dict[str, Any] = yaml.safe_load((ROOT / "rulesets/reference/settling.yaml").read_text("utf-8"))["values"]
SETTLING, SIZES = Settling.from_values(VALUES), GrainSizes.from_values(VALUES, "usda")
PRACTICE = JarPractice.from_values(VALUES)
WARM = 293.15
# 10 cm of water at 20 °C: 44.54 s for sand, 7.73 h for silt.
JAR = Jar(
    depth=0.1,
    sand=LayerMark(0.018, 45.0),
    silt=LayerMark(0.024, 28_000.0),
    settled=LayerMark(0.030, 172_800.0),
    temperature=WARM,
    clear=True,
    dispersed=True,
)


def codes(jar: Jar) -> list[str]:
    return [remark.code for remark in read_jar(jar, SETTLING, SIZES, PRACTICE).remarks if remark.code != "jar-method"]


def said(jar: Jar, code: str) -> str:
    (remark,) = [one for one in read_jar(jar, SETTLING, SIZES, PRACTICE).remarks if one.code == code]
    return remark.says


def test_shares_of_settled_depth() -> None:
    result = read_jar(JAR, SETTLING, SIZES, PRACTICE)
    shares = result.shares
    assert (shares.sand, shares.silt, shares.clay) == pytest.approx((0.6, 0.2, 0.2))
    assert (shares.sizes, shares.basis, shares.fine_sand, shares.gravel) == ("usda", "settled depth", None, None)
    assert codes(JAR) == []
    assert [step.result.value for step in result.steps[:3]] == pytest.approx([0.6, 0.2, 0.2])


def test_a_jar_on_time_still_says_what_a_jar_is_worth() -> None:
    notes = [remark.says for remark in read_jar(JAR, SETTLING, SIZES, PRACTICE).remarks]
    assert len(notes) == 1 and "settled depth" in notes[0]


def test_coarse_sand_read_apart() -> None:
    shares = read_jar(replace(JAR, coarse_sand=0.012), SETTLING, SIZES, PRACTICE).shares
    assert (shares.coarse_sand, shares.fine_sand) == pytest.approx((0.4, 0.2))
    assert shares.fractions() == pytest.approx({"clay": 0.2, "silt": 0.2, "fine sand": 0.2, "coarse sand": 0.4})


@pytest.mark.parametrize("hours", [0.5, 1, 2])
def test_a_silt_mark_after_an_hour_or_two_reads_too_much_clay(hours: float) -> None:
    says = said(replace(JAR, silt=LayerMark(0.024, 3600 * hours)), "jar-read-early")
    assert "clay share reads too high" in says and "silt share too low" in says
    assert "0.002 mm need 7.73 h" in says


def test_a_sand_mark_too_early_reads_too_much_silt() -> None:
    says = said(replace(JAR, sand=LayerMark(0.018, 20.0)), "jar-read-early")
    assert "silt share reads too high" in says and "sand share too low" in says
    assert "only grains down to 0.0746 mm" in says.lower()  # 0.05 mm times the root of 44.54 s over 20 s


def test_a_sand_mark_much_too_late_errs_the_other_way() -> None:
    says = said(replace(JAR, sand=LayerMark(0.018, 300.0)), "jar-read-late")
    assert "sand share reads too high" in says and "silt share too low" in says
    assert codes(replace(JAR, sand=LayerMark(0.018, 88.0))) == []  # not yet twice 44.5 s
    assert codes(replace(JAR, sand=LayerMark(0.018, 90.0))) == ["jar-read-late"]


def test_a_mark_at_its_stokes_time_is_on_time() -> None:
    schedule = reading_schedule(SETTLING, SIZES, JAR.depth, WARM)
    sand, silt, _ = (reading.time for reading in schedule.readings)
    assert codes(replace(JAR, sand=LayerMark(0.018, sand), silt=LayerMark(0.024, silt))) == []


def test_what_is_not_recorded_is_not_taken_as_well_done() -> None:
    bare = Jar(0.1, LayerMark(0.018), LayerMark(0.024), LayerMark(0.030))
    assert codes(bare) == ["jar-no-temperature", "jar-clear-unknown", "jar-not-dispersed"]
    assert codes(replace(bare, temperature=WARM))[:2] == ["jar-no-time", "jar-no-time"]


def test_cloudy_water_floating_matter_and_flocs_are_told() -> None:
    jar = replace(JAR, clear=False, dispersed=False, floating=0.003)
    assert codes(jar) == ["jar-not-clear", "jar-not-dispersed", "jar-floating"]
    assert "clay share reads too low" in said(jar, "jar-not-clear")
    assert "10 %" in said(jar, "jar-floating")
    assert codes(replace(JAR, floating=0.0)) == []


@pytest.mark.parametrize(
    "wrong",
    [
        {"sand": LayerMark(0.025, 45.0)},
        {"settled": LayerMark(0.020, 172_800.0)},
        {"settled": LayerMark(0.2, 172_800.0)},
        {"settled": LayerMark(0.0), "silt": LayerMark(0.0), "sand": LayerMark(0.0)},
        {"sand": LayerMark(-0.001, 45.0)},
        {"sand": LayerMark(float("nan"), 45.0)},
        {"coarse_sand": 0.019},
        {"silt": LayerMark(0.024, 30.0)},
        {"sand": LayerMark(0.018, 0.0)},
        {"floating": -0.001},
        {"temperature": 250.0},
        {"depth": float("inf")},
    ],
)
def test_marks_that_make_no_sense_are_refused(wrong: dict[str, Any]) -> None:
    with pytest.raises(SoilError):
        read_jar(replace(JAR, **wrong), SETTLING, SIZES, PRACTICE)


@settings(deadline=None)
@given(st.lists(st.floats(0, 0.2), min_size=4, max_size=4).map(sorted).filter(lambda heights: heights[-1] > 1e-6))
def test_shares_always_sum_to_one(heights: list[float]) -> None:
    coarse, sand, silt, total = heights
    jar = Jar(0.2, LayerMark(sand), LayerMark(silt), LayerMark(total), coarse_sand=coarse)
    shares = read_jar(jar, SETTLING, SIZES, PRACTICE).shares
    assert shares.clay + shares.silt + shares.sand == pytest.approx(1)
    assert sum(shares.fractions().values()) == pytest.approx(1)


@settings(deadline=None)
@given(st.floats(275, 310), st.floats(0.02, 0.5), st.floats(1e-6, 2e-4), st.floats(1.01, 3))
def test_waiting_grows_with_depth_and_cold_and_fineness(
    temperature: float, depth: float, size: float, more: float
) -> None:
    def wait(size: float, depth: float, temperature: float) -> float:
        water = water_at(SETTLING.formulas, temperature)
        return settling_time(
            size, depth=depth, water=water, grain_density=SETTLING.grain_density, gravity=SETTLING.gravity
        )

    time = wait(size, depth, temperature)
    assert wait(size, more * depth, temperature) == pytest.approx(more * time)
    assert wait(size / more, depth, temperature) == pytest.approx(more**2 * time)
    assert wait(size, depth, temperature + more) < time


@pytest.mark.parametrize("degrees", [-0.1, 100.1, float("nan")])
def test_water_outside_its_formulas_is_refused(degrees: float) -> None:
    with pytest.raises(SoilError, match="liquid"):
        water_at(SETTLING.formulas, 273.15 + degrees)


def test_grains_lighter_than_water_and_no_depth_are_refused() -> None:
    water = water_at(SETTLING.formulas, WARM)
    with pytest.raises(SoilError, match="denser"):
        settling_time(1e-5, depth=0.1, water=water, grain_density=900.0, gravity=9.8)
    with pytest.raises(SoilError, match="depth"):
        settling_time(1e-5, depth=0.0, water=water, grain_density=2650.0, gravity=9.8)
