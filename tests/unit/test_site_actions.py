"""Earthquake and wind: what must hold whatever the numbers, what is refused, and how the worked lines print."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from compliance.facts.site.seismic_category import (
    AsceCategories,
    ResidentialCategories,
    asce_category,
    differing_acceleration,
    differing_category,
    residential_category,
)
from compliance.facts.site.seismic_site import SiteTables, ground_motion
from compliance.facts.site.wind import (
    WindEdition,
    WindSite,
    exposure_factor,
    pressure_at,
    pressure_steps,
    velocity_pressure,
)
from compliance.facts.site.wind_on_building import BuildingCoefficients, building_pressures
from compliance.facts.site.wind_on_walls import (
    END,
    MIDDLE,
    PieceOfWall,
    WallCoefficients,
    wall_pressures,
)
from compliance.findings import Standing
from compliance.steps import Step
from compliance.units import Writer, unit
from tests.recomputing import recomputed

FOLDER = Path(__file__).parents[2] / "rulesets" / "reference"


def values(name: str) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.safe_load((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"))["values"]
    return loaded


OLD, NEW = (SiteTables.from_values(values(name)) for name in ("asce7-10-seismic", "asce7-16-seismic"))
CATEGORIES = AsceCategories.from_values(values("asce7-10-seismic"))
RESIDENTIAL = ResidentialCategories.from_values(values("irc-seismic"), "irc-2021")
WIND = WindEdition.from_values(values("asce7-wind"), "asce7-10", "us")
WALLS = WallCoefficients.from_values(values("asce7-wind"))
WHOLE_WALLS = BuildingCoefficients.from_values(values("asce7-wind"))
PSF, FOOT = unit("psf").factor, unit("ft").factor

accelerations = st.floats(0.0, 4.0)
heights = st.floats(0.0, 18.0)
speeds = st.floats(20.0, 90.0)


# earthquake


@given(accelerations, accelerations, st.sampled_from("ABCD"), st.booleans(), st.sampled_from([OLD, NEW]))
def test_design_acceleration_grows_with_the_mapped_one(
    one: float, other: float, site_class: str, measured: bool, tables: SiteTables
) -> None:
    low, high = sorted((one, other))
    less, more = (
        ground_motion(ss, s1=ss, site_class=site_class, measured=measured, tables=tables) for ss in (low, high)
    )
    assert less.sds is not None and more.sds is not None and less.sd1 is not None and more.sd1 is not None
    assert less.sds <= more.sds + 1e-12
    assert less.sd1 <= more.sd1 + 1e-12


def test_soft_ground_of_asce_7_10_is_no_rising_line() -> None:
    """Class E is left out above: straight lines between its coefficients let S_DS fall from Ss 0.875 to 1.0."""
    peak, later = (ground_motion(ss, s1=0.1, site_class="E", measured=True, tables=OLD).sds for ss in (0.875, 1.0))
    assert peak is not None and later is not None and peak > later


@given(accelerations, accelerations, st.floats(0, 2), st.floats(0, 2), st.sampled_from(["I", "II", "III", "IV"]))
def test_more_shaking_is_never_a_milder_category(a: float, b: float, c: float, d: float, risk: str) -> None:
    (sds, more_sds), (sd1, more_sd1) = sorted((a, b)), sorted((c, d))
    one = asce_category(sds, sd1=sd1, s1=sd1, risk=risk, tables=CATEGORIES).name
    other = asce_category(more_sds, sd1=more_sd1, s1=more_sd1, risk=risk, tables=CATEGORIES).name
    assert one is not None and other is not None
    assert CATEGORIES.order.index(one) <= CATEGORIES.order.index(other)
    first, second = (residential_category(value, RESIDENTIAL).name for value in (sds, more_sds))
    assert first is not None and second is not None
    assert RESIDENTIAL.order.index(first) <= RESIDENTIAL.order.index(second)


def test_nothing_missing_is_taken_as_harmless() -> None:
    assert asce_category(0.1, sd1=None, s1=0.01, risk="II", tables=CATEGORIES).missing == ("SD1",)
    assert asce_category(None, sd1=None, s1=None, risk="II", tables=CATEGORIES).missing == ("SDS", "SD1", "S1")
    assert asce_category(0.1, sd1=0.01, s1=None, risk="II", tables=CATEGORIES).name is None
    assert asce_category(None, sd1=None, s1=0.8, risk="II", tables=CATEGORIES).name == "E"


def test_wrong_values_are_refused() -> None:
    with pytest.raises(ValueError, match="site class must be one of A, B, C, D, E, F, not 'G'"):
        ground_motion(1.0, s1=1.0, site_class="G", measured=True, tables=OLD)
    for ss in (-0.1, float("nan"), float("inf")):
        with pytest.raises(ValueError, match="ss must be"):
            ground_motion(ss, s1=0.1, site_class="D", measured=True, tables=OLD)
    for s1 in (0.1, 0.9):
        with pytest.raises(ValueError, match="risk category must be one of I, II, III, IV"):
            asce_category(0.1, sd1=0.1, s1=s1, risk="V", tables=CATEGORIES)
    with pytest.raises(ValueError, match="not below zero"):
        residential_category(-0.1, RESIDENTIAL)


def test_long_period_above_short_is_remarked_where_the_edition_says_so() -> None:
    assert any(
        "SM1 is larger" in remark
        for remark in ground_motion(0.3, s1=0.5, site_class="D", measured=True, tables=NEW).remarks
    )
    assert not ground_motion(0.3, s1=0.5, site_class="D", measured=True, tables=OLD).remarks


def test_given_accelerations_against_derived() -> None:
    assert differing_acceleration("S_DS", 0.72, 0.7191, 0.005) == ""
    assert differing_acceleration("S_DS", 0.724, 0.719, 0.005) == ""
    assert differing_acceleration("S_DS", None, 0.7, 0.005) == differing_acceleration("S_DS", 0.7, None, 0.005) == ""
    said = differing_acceleration("S_DS", 0.50, 0.719, 0.005)
    assert said.startswith("S_DS is given as 0.500, lower than the 0.719 that follows")
    assert "higher" in differing_acceleration("S_DS", 0.90, 0.719, 0.005)


def test_given_category_against_derived() -> None:
    assert differing_category("D", "D", CATEGORIES.order) == differing_category(None, "D", CATEGORIES.order) == ""
    assert differing_category("D", None, CATEGORIES.order) == ""
    assert "given as C, milder than the D" in differing_category("C", "D", CATEGORIES.order)
    assert "given as E, more severe than the D" in differing_category("E", "D", CATEGORIES.order)
    assert "given as D1, milder than the D2" in differing_category("D1", "D2", RESIDENTIAL.order)
    assert "none of the categories A, B, C, D, E, F" in differing_category("D1", "D", CATEGORIES.order)


def test_a_site_class_that_was_not_measured_has_its_least_coefficient_and_says_so() -> None:
    """Class D at Ss 1.0: Fa 1.1 by the table, not less than 1.2 without measurements (ASCE 7-16 section 11.4.4)."""
    taken, measured = (
        ground_motion(1.0, s1=0.3, site_class="D", measured=known, tables=NEW).steps for known in (False, True)
    )
    raised = next(step for step in taken if step.formula == "max(F, Fleast)")
    assert recomputed(raised) == raised.result.value == pytest.approx(1.2)
    assert not [step for step in measured if step.formula == "max(F, Fleast)"]


# wind


@given(heights, heights, speeds, speeds, st.sampled_from("BCD"), st.booleans())
def test_pressure_grows_with_height_and_speed(
    a: float, b: float, c: float, d: float, exposure: str, for_walls: bool
) -> None:
    (low, high), (slow, fast) = sorted((a, b)), sorted((c, d))
    less = pressure_at(low, WindSite(slow, exposure, 1.0), WIND, for_walls)
    more = pressure_at(high, WindSite(fast, exposure, 1.0), WIND, for_walls)
    assert 0.0 < less <= more * (1 + 1e-12)


@given(heights, st.floats(1.0, 90.0))
def test_pressure_is_four_times_at_twice_the_speed_and_grows_with_exposure(height: float, speed: float) -> None:
    once, twice = (pressure_at(height, WindSite(v, "C", 1.0), WIND, False) for v in (speed, 2 * speed))
    assert twice == pytest.approx(4 * once)
    b, c, d = (pressure_at(height, WindSite(speed, name, 1.0), WIND, True) for name in "BCD")
    assert b < c < d


@given(st.floats(0.0, 80.0), st.floats(0.0, 80.0), st.sampled_from([MIDDLE, END]))
def test_wall_pressure_falls_with_area_and_the_end_is_worse(a: float, b: float, zone: str) -> None:
    small, large = sorted((a, b))
    site = WindSite(60.0, "C", 1.0)
    one, other = (
        wall_pressures(PieceOfWall(4.0, area, zone, "enclosed"), site, WIND, WALLS) for area in (small, large)
    )
    end = wall_pressures(PieceOfWall(4.0, small, END, "enclosed"), site, WIND, WALLS)
    assert one.inward is not None and other.inward is not None and one.outward is not None
    assert other.outward is not None and end.outward is not None
    assert one.inward >= other.inward - 1e-9
    assert one.outward <= other.outward + 1e-9
    assert end.outward <= one.outward


def piece(**changes: Any) -> PieceOfWall:
    return PieceOfWall(**{"height": 4.0, "area": 2.0, "zone": END, "enclosure": "enclosed", **changes})


def test_wall_pressures_special_cases() -> None:
    strong, calm = WindSite(60.0, "C", 1.0), WindSite(5.0, "C", 1.0)
    base = wall_pressures(piece(), strong, WIND, WALLS)
    low = wall_pressures(piece(roof_slope=math.radians(10)), strong, WIND, WALLS)
    steep = wall_pressures(piece(roof_slope=math.radians(11)), strong, WIND, WALLS)
    leaky = wall_pressures(piece(enclosure="partially enclosed"), strong, WIND, WALLS)
    least = wall_pressures(piece(), calm, WIND, WALLS)
    assert base.outward is not None and low.outward is not None and leaky.inward is not None
    assert base.inward is not None and base.outward < low.outward < 0.0 < base.inward < leaky.inward
    assert (steep.inward, steep.outward) == (base.inward, base.outward)
    assert least.inward == WIND.least_pressure == pytest.approx(16 * PSF) and least.outward == -least.inward
    assert base.standing is Standing.RECALLED


def test_a_high_building_gets_no_wall_pressures() -> None:
    site = WindSite(60.0, "C", 1.0)
    assert wall_pressures(piece(height=60 * FOOT), site, WIND, WALLS).inward is not None
    found = wall_pressures(piece(height=60.1 * FOOT), site, WIND, WALLS)
    assert (found.inward, found.outward) == (None, None)
    assert "too high" in found.reason


def test_wind_words_are_checked() -> None:
    site = WindSite(60.0, "C", 1.0)
    with pytest.raises(ValueError, match="zone must be one of middle, end"):
        wall_pressures(piece(zone="corner"), site, WIND, WALLS)
    with pytest.raises(ValueError, match="enclosure must be one of enclosed, partially enclosed, open"):
        wall_pressures(piece(enclosure="tent"), site, WIND, WALLS)
    with pytest.raises(ValueError, match="wind exposure must be one of B, C, D, not 'A'"):
        pressure_at(4.0, WindSite(60.0, "A", 1.0), WIND, True)
    with pytest.raises(ValueError, match="speed must not be below zero"):
        velocity_pressure(0.613, 1.0, 1.0, 0.85, -3.0)
    with pytest.raises(ValueError, match="height must be"):
        exposure_factor(-1.0, WIND.exposure("C"))


def test_other_factors_multiply_the_pressure_and_are_shown() -> None:
    plain, full = WindSite(50.0, "C", 1.0), WindSite(50.0, "C", 1.0, elevation=0.9, importance=1.15)
    assert pressure_at(4.0, full, WIND, True) == pytest.approx(pressure_at(4.0, plain, WIND, True) * 0.9 * 1.15)
    assert pressure_steps(4.0, plain, WIND, True)[-1].formula == "c × Kz × Kzt × Kd × V²"
    assert pressure_steps(4.0, full, WIND, True)[-1].formula == "c × Kz × Kzt × Kd × V² × Ke × I"


def test_the_building_as_a_whole_takes_the_factor_of_its_main_walls() -> None:
    """Exposure B at 15 ft: Kz 0.57 (ASCE 7-10 table 27.3-1), not the 0.70 of components; 0.85 × (0.8 + 0.5) of q."""
    found = building_pressures(
        15 * FOOT,
        length_over_width=1.0,
        internal=0.18,
        site=WindSite(50.0, "B", 1.0),
        edition=WIND,
        coefficients=WHOLE_WALLS,
    )
    q = velocity_pressure(WIND.air, 0.57475, 1.0, WIND.directionality, 50.0)
    assert found.across == pytest.approx(q * 0.85 * 1.3, rel=1e-4)


def test_building_pressure_is_never_below_the_least() -> None:
    found = building_pressures(
        4.0, length_over_width=1.0, internal=0.18, site=WindSite(5.0, "B", 1.0), edition=WIND, coefficients=WHOLE_WALLS
    )
    assert found.across == pytest.approx(16 * PSF)
    assert found.leeward < 0.0 < found.windward


# worked lines


@pytest.mark.parametrize("for_walls", [False, True])
@pytest.mark.parametrize("height", [1.0, 4.6, 12.0])
def test_the_lines_of_a_pressure_give_the_pressure(height: float, for_walls: bool) -> None:
    """Exposure B under 15 ft: 0.575, but 0.70 for walls as components (ASCE 7-10 table 30.3-1)."""
    site = WindSite(50.0, "B", 1.2)
    steps = pressure_steps(height, site, WIND, for_walls)
    raised = for_walls and height < 9.0
    assert [step.formula for step in steps[1:-1]] == (["max(K, Kleast)"] if raised else [])
    assert [recomputed(step) for step in steps] == pytest.approx([float(step.result.value) for step in steps], rel=1e-9)
    kz = 0.70 if raised else exposure_factor(height, WIND.exposure("B"))
    expected = velocity_pressure(WIND.air, kz, 1.2, WIND.directionality, 50.0)
    assert steps[-1].result.value == pytest.approx(expected, rel=1e-9)


def every_step() -> list[Step]:
    motion = ground_motion(0.6, s1=0.15, site_class="D", measured=False, tables=NEW)
    site = WindSite(50.0, "B", 1.2, elevation=0.95)
    return [
        *motion.steps,
        *asce_category(motion.sds, sd1=motion.sd1, s1=0.15, risk="II", tables=CATEGORIES).steps,
        *asce_category(1.0, sd1=1.0, s1=0.8, risk="II", tables=CATEGORIES).steps,
        *residential_category(motion.sds, RESIDENTIAL).steps,
        *wall_pressures(piece(), site, WIND, WALLS).steps,
        *building_pressures(
            4.0, length_over_width=1.5, internal=0.18, site=site, edition=WIND, coefficients=WHOLE_WALLS
        ).steps,
    ]


def test_every_line_prints_in_both_systems_with_all_its_symbols() -> None:
    for step in every_step():
        assert step.source or "as given" in step.says
        for value in step.given:
            assert not step.formula or value.symbol in step.formula, step
        for system in (Writer("us"), Writer("si")):
            assert step.line(system).startswith(step.says)


def test_a_printed_line_reads_like_a_hand_calculation() -> None:
    motion = ground_motion(0.970, s1=0.348, site_class="D", measured=True, tables=OLD)
    assert motion.steps[0].line(Writer()) == (
        "Site coefficient from the table, site class D: Fa = y1 + (y2 − y1) × (Ss − x1) / (x2 − x1) = "
        "1.2 + (1.1 − 1.2) × (0.97 − 0.75) / (1 − 0.75) = 1.112"
    )
    assert motion.steps[2].line(Writer()) == "Design acceleration: SDS = 2 × SMS / 3 = 2 × 1.079 / 3 = 0.719"
