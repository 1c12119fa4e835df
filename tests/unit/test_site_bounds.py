"""Wind, snow, earthquake and roof layers exactly at their bounds, and lines that must belong to the value beside them.

Coefficients are those of the reference files; where a number is worked here, the clause stands beside it.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from compliance.facts.common.reference_values import ReferenceValueError
from compliance.facts.site.roof_layers import Layer, RoofWeight, roof_weight
from compliance.facts.site.seismic_site import SiteTables, ground_motion
from compliance.facts.site.snow import NOT_COVERED, RUN_NOT_GIVEN, SnowRoof, SnowTables, rain_on_snow, roof_snow
from compliance.facts.site.wind import WindEdition, WindSite
from compliance.facts.site.wind_on_building import BuildingCoefficients, building_pressures
from compliance.facts.site.wind_on_walls import END, PieceOfWall, WallCoefficients, wall_pressures
from compliance.findings import Standing
from tests.recomputing import recomputed
from tests.unit.structural_houses import FOOT, PSF, ROOF, SITE, bears, box, facts, missing
from tests.unit.test_site_reference_files import changed, values

# wind


def test_wall_coefficients_are_those_of_the_file() -> None:
    """ASCE 7-10 Figure 30.4-1, recalled: 1.0 to 0.7 inward, −1.1 to −0.8 in the middle, −1.4 to −0.8 at the end."""
    read = WallCoefficients.from_values(values("asce7-wind"))
    assert read.inward == (1.0, 0.7)
    assert read.outward == {"middle": (-1.1, -0.8), "end": (-1.4, -0.8)}


def test_a_small_wind_area_of_nothing_is_refused() -> None:
    """The coefficients run over the logarithm of the area, which zero does not have."""
    none = changed("asce7-wind", ("walls", "areas", "small"), "0 m2")
    with pytest.raises(ReferenceValueError, match=r"walls\.areas must have a large area above the small one"):
        WallCoefficients.from_values(none)


@pytest.mark.parametrize("alpha", [0.5, 1.0])
def test_any_power_above_zero_gives_an_exposure(alpha: float) -> None:
    read = changed("asce7-wind", ("editions", "asce7-10", "C", "alpha"), alpha)
    assert WindEdition.from_values(read, "asce7-10", "us").exposure("C").alpha == alpha


def test_the_lines_of_a_wall_pressure_lead_to_it() -> None:
    """Exposure B at 15 ft: Kz no less than 0.70 for walls as components (ASCE 7-10 table 30.3-1), on every line."""
    wind = WindEdition.from_values(values("asce7-wind"), "asce7-10", "us")
    piece = PieceOfWall(15 * FOOT, 2.0, END, "enclosed")
    found = wall_pressures(piece, WindSite(50.0, "B", 1.0), wind, WallCoefficients.from_values(values("asce7-wind")))
    *_, velocity, towards, away = found.steps
    assert next(one.value for one in velocity.given if one.symbol == "Kz") == 0.70
    for line, pressure in ((towards, found.inward), (away, found.outward)):
        assert line.given[0].value == velocity.result.value
        assert recomputed(line) == pytest.approx(pressure)


def test_pressures_on_the_whole_building_are_known_as_well_as_the_weaker_of_their_tables() -> None:
    wind = WindEdition.from_values(values("asce7-wind"), "asce7-10", "us")
    for own in ("recalled", "reported"):
        read = changed("asce7-wind", ("building", "standing"), own)
        found = building_pressures(
            4.0,
            length_over_width=1.0,
            internal=0.18,
            site=WindSite(50.0, "B", 1.0),
            edition=wind,
            coefficients=BuildingCoefficients.from_values(read),
        )
        assert found.standing is Standing.RECALLED


def test_the_lines_of_the_velocity_pressure_at_the_site_are_those_of_the_whole_building() -> None:
    """Exposure B at 14 ft, so at 15 ft: Kz 0.575 (ASCE 7-10 table 27.3-1: 0.57), not the 0.70 of components."""
    fact = facts(box(20, 16)).of("site")["site"].fact("site.wind_pressure")
    assert SITE["wind_exposure"] == "B"
    factor = next(one.value for one in fact.steps[-1].given if one.symbol == "Kz")
    assert factor == pytest.approx(0.5747, abs=5e-5)
    assert recomputed(fact.steps[-1]) == pytest.approx(fact.value)


@pytest.mark.parametrize("name", ["roof.suction", "roof.eave_suction"])
def test_suction_on_a_roof_asks_whether_the_building_is_enclosed(name: str) -> None:
    found = facts(box(20, 16), {"R": {**ROOF, "bears_on": bears("W1", "W3")}}, site={**SITE, "enclosure": None})
    assert missing(found, name, "R") == {"site.enclosure"}


# snow


SNOW = SnowTables.from_values(values("snow"))


def test_snow_is_known_as_well_as_the_weakest_of_its_tables() -> None:
    assert SnowTables.from_values(values("snow")).standing is Standing.RECALLED


def _slope(full: str) -> dict[str, Any]:
    ends = {"full": full, "none": "30 deg"}
    return changed("snow", ("slope_factor",), [{"thermal_at_most": 1.0, "other": ends, "slippery": ends}])


def test_a_slope_factor_falls_from_flat_at_the_earliest_and_over_some_angle() -> None:
    assert SnowTables.from_values(_slope("0 deg")).curves[0].other == pytest.approx((0.0, math.radians(30)))
    with pytest.raises(ReferenceValueError, match="must be steeper than full"):
        SnowTables.from_values(_slope("30 deg"))


def roof(slope: float, run: float | None) -> SnowRoof:
    return SnowRoof(
        math.radians(slope), run=run, terrain="C", sheltering="partially exposed", warmth="heated", risk_category="II"
    )


@pytest.mark.parametrize(
    ("ground", "slope", "run", "psf", "remarks"),
    [
        # 0.7 × 1.0 × 1.0 × 1.0 of the ground snow, all of it up to 30° where not slippery; rain 5 psf up to 20 psf of
        # ground snow, where the slope in degrees is below the run in feet over 50; from 15° on no least load (ASCE 7-10
        # chapter 7, recalled).
        (15, 20, None, 15.5, (NOT_COVERED, RUN_NOT_GIVEN)),
        (15, 20, 40 * FOOT, 10.5, (NOT_COVERED,)),
        (20, 0.5, 40 * FOOT, 20.0, (NOT_COVERED,)),  # 14 + 5 is below the least load
        (30, 20, None, 21.0, (NOT_COVERED,)),
    ],
)
def test_rain_comes_on_top_and_a_run_not_given_is_remarked_only_then(
    ground: float, slope: float, run: float | None, psf: float, remarks: tuple[str, ...]
) -> None:
    found = roof_snow(None, ground * PSF, roof(slope, run), SNOW)
    assert found.pressure == pytest.approx(psf * PSF) and found.remarks == remarks
    assert recomputed(found.steps[-1]) == pytest.approx(psf * PSF)


def test_the_lightest_snow_brings_its_rain_with_it() -> None:
    assert rain_on_snow(1.0, 0.0, 10.0, SNOW) == pytest.approx(5 * PSF)


# earthquake


@pytest.mark.parametrize(("s1", "told"), [(0.3, False), (0.301, True)])
def test_a_long_period_exactly_like_the_short_one_is_not_larger(s1: float, told: bool) -> None:
    """Class A has 0.8 in both tables of ASCE 7-16, so that S_MS and S_M1 are alike where Ss and S1 are."""
    tables = SiteTables.from_values(values("asce7-16-seismic"))
    remarks = ground_motion(0.3, s1=s1, site_class="A", measured=True, tables=tables).remarks
    assert any("SM1 is larger" in one for one in remarks) is told


def test_the_difference_from_the_derived_acceleration_is_that_of_the_two() -> None:
    """Ss 0.970, class D: S_DS 0.719 (a report of a public design-map service); 0.5 given differs by 0.219."""
    mapped = {**SITE, "asce7": "7-10", "sds": 0.5, "ss": 0.97, "s1": 0.348, "site_class": "D"}
    fact = facts(box(20, 16), site=mapped).of("site")["site"].fact("site.sds_agrees")
    assert fact.value is False
    line = fact.steps[-1]
    assert recomputed(line) == line.result.value == pytest.approx(0.219, abs=1e-3)


# layers of a roof


def test_a_total_needs_both_of_its_loads() -> None:
    assert RoofWeight(1.0, 2.0).total == 3.0
    assert RoofWeight(1.0, None).total is None is RoofWeight(None, 2.0).total


def test_a_weight_as_given_goes_before_thickness_and_density() -> None:
    found = roof_weight([Layer("sod", 0.1, 1500.0, weight=40.0)], 0.0)
    assert found.dead == 40.0
    assert found.steps[0].says == "sod, weight per area as given" and found.steps[0].result.value == 40.0
