"""Settling of grains against Stokes' law as published, and water against published tables and formulas."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
import yaml

from compliance.facts.soil.fractions import GrainSizes
from compliance.facts.soil.settling import (
    Settling,
    reading_schedule,
    reynolds_number,
    settled_size,
    settling_time,
    stokes_remarks,
)
from compliance.facts.soil.water_properties import Water, water_at, water_density, water_viscosity
from compliance.units import measure

ROOT = Path(__file__).parents[2]
VALUES: dict[str, Any] = yaml.safe_load((ROOT / "rulesets/reference/settling.yaml").read_text(encoding="utf-8"))[
    "values"
]
SETTLING = Settling.from_values(VALUES)
STATED = Water(density=998.2, viscosity=0.001002)
GRAIN, GRAVITY = 2650.0, 9.80665


def celsius(degrees: float) -> float:
    return degrees + 273.15


# Stokes' law in the form printed at http://www.agron.iastate.edu/soilphysics/a577stokes.html, worked apart from this
# code for 10 cm of water at 20 °C with grains of 2.65 g/cm3, water of 0.9982 g/cm3 and 0.01002 poise.
TABLE = [
    (0.075, "19.79"),
    (0.0625, "28.50"),
    (0.06, "30.93"),
    (0.05, "44.54"),
    (0.02, "278.36"),
    (0.002, "27836"),
    (0.001, "111343"),
]


@pytest.mark.parametrize(("millimetres", "printed"), TABLE)
def test_times_at_20_degrees_to_the_printed_digits(millimetres: float, printed: str) -> None:
    decimals = len(printed.partition(".")[2])
    time = settling_time(millimetres / 1000, depth=0.1, water=STATED, grain_density=GRAIN, gravity=GRAVITY)
    assert f"{time:.{decimals}f}" == printed
    assert settled_size(time, depth=0.1, water=STATED, grain_density=GRAIN, gravity=GRAVITY) == pytest.approx(
        millimetres / 1000, rel=1e-12
    )


def test_water_at_20_degrees_has_the_stated_viscosity_and_density() -> None:
    water = water_at(SETTLING.formulas, celsius(20))
    assert f"{water.viscosity * 10:.5f}" == "0.01002"  # poise
    assert f"{water.density / 1000:.4f}" == "0.9982"  # g/cm3


# Density of air-free water at 1 atm in g/cm3 as handbooks tabulate it (CRC Handbook; recalled from memory).
@pytest.mark.parametrize(
    ("degrees", "printed"),
    [
        (0, "0.99984"),
        (4, "0.99997"),
        (10, "0.99970"),
        (15, "0.99910"),
        (20, "0.99820"),
        (25, "0.99704"),
        (30, "0.99565"),
    ],
)
def test_density_of_water_against_the_handbook(degrees: float, printed: str) -> None:
    assert f"{water_density(SETTLING.formulas, celsius(degrees)) / 1000:.5f}" == printed


def test_density_formula_is_not_the_widespread_copy_with_two_digits_swapped() -> None:
    """Copies with 0.01689785 for 0.01687985 stand in public code; they miss the handbook by 0.03 % at 20 °C."""
    swapped = tuple(0.01689785 if value == 0.01687985 else value for value in SETTLING.formulas.below)
    assert swapped != SETTLING.formulas.below
    wrong = sum(c * 20**power for power, c in enumerate(SETTLING.formulas.above)) / (swapped[0] + swapped[1] * 20)
    assert f"{wrong / 1000:.4f}" == "0.9979"


# Korson, Drost-Hansen and Millero 1969, table II, in centipoise, as quoted in the tests of the library chempy.
KORSON_TABLE = [
    (5, 1.5192),
    (10, 1.3069),
    (15, 1.1382),
    (20, 1.0020),
    (25, 0.8903),
    (30, 0.7975),
    (35, 0.7195),
    (40, 0.6532),
]


@pytest.mark.parametrize(("degrees", "centipoise"), KORSON_TABLE)
def test_viscosity_against_the_table_of_its_own_paper(degrees: float, centipoise: float) -> None:
    """The paper's table and its fitted equation 5 differ by up to 2 in the last place (0.02 %)."""
    assert water_viscosity(SETTLING.formulas, celsius(degrees)) * 1000 == pytest.approx(centipoise, abs=2.5e-4)


@pytest.mark.parametrize("degrees", range(0, 45, 5))
def test_viscosity_against_an_independent_formula(degrees: int) -> None:
    """Pátek, Hrubý, Klomfar, Součková, Harvey, J. Phys. Chem. Ref. Data 38 (2009) 21: water at 0.1 MPa.

    Finding: that formula gives 1.0016 mPa s at 20 °C where the older convention fixes 1.0020, 0.04 % more, and the two
    part by up to 0.12 % from 0 to 40 °C. A jar read by eye to the second does not see it.
    """
    ratio = celsius(degrees) / 300
    published = 1e-6 * (280.68 * ratio**-1.9 + 511.45 * ratio**-7.7 + 61.131 * ratio**-19.6 + 0.45903 * ratio**-40)
    assert water_viscosity(SETTLING.formulas, celsius(degrees)) == pytest.approx(published, rel=1.2e-3)


# ASTM D422, table 3, for grains of 2.65: K in D = K sqrt(L / t), mm, cm, minutes; its formula takes 980 cm/s2 for
# gravity (recalled from memory).
D422 = {
    16: 0.01435, 17: 0.01417, 18: 0.01399, 19: 0.01382, 20: 0.01365, 21: 0.01348, 22: 0.01332, 23: 0.01317, 24: 0.01301,
    25: 0.01286, 26: 0.01272, 27: 0.01258, 28: 0.01244, 29: 0.01230, 30: 0.01217,
}  # fmt: skip


@pytest.mark.parametrize(("degrees", "printed"), D422.items())
def test_hydrometer_constants_rest_on_an_older_viscosity(degrees: int, printed: float) -> None:
    """Finding: the table fits a viscosity of 1.005 centipoise at 20 °C, an older value (recalled), not 1.002.

    Our constants are 0.1 to 0.2 % lower (rounded to that digit). Scaled to 1.005 they agree to one unit of the last
    printed place.
    """
    water = water_at(SETTLING.formulas, celsius(degrees))
    constant = settled_size(60.0, depth=0.01, water=water, grain_density=GRAIN, gravity=9.80) * 1000
    assert 0.0005 < 1 - constant / printed < 0.0025
    assert constant * math.sqrt(1.005 / 1.002) == pytest.approx(printed, abs=1e-5)


# Laboratory practice: the 40 s hydrometer reading stands for sand, 6 to 8 h for clay
# (http://ral.cfans.umn.edu/textural-analysis-hydrometer).
def test_forty_seconds_fits_nine_centimetres_at_the_usda_sand_limit() -> None:
    depth = 40 / settling_time(0.05e-3, depth=1.0, water=STATED, grain_density=GRAIN, gravity=GRAVITY)
    assert f"{depth:.2f}" == "0.09"


@pytest.mark.parametrize("degrees", [20, 25, 28])
def test_clay_reading_of_the_hydrometer_laboratory(degrees: int) -> None:
    time = settling_time(
        0.002e-3, depth=0.1, water=water_at(SETTLING.formulas, celsius(degrees)), grain_density=GRAIN, gravity=GRAVITY
    )
    assert 6 <= time / 3600 <= 8


# Silt marks of jar instructions at 30 min (http://hotcoffee.org/Growinfo/growfaq/1135.htm), 1 h
# (https://veryfocus.net/articles_4fu1fa.html) and 2 h (https://www.assignmentexpert.com, question 104044).
@pytest.mark.parametrize(("minutes", "millimetres"), [(30, 0.0079), (60, 0.0056), (120, 0.0039)])
def test_silt_marks_of_jar_instructions_leave_silt_in_suspension(minutes: int, millimetres: float) -> None:
    size = settled_size(60 * minutes, depth=0.1, water=STATED, grain_density=GRAIN, gravity=GRAVITY) * 1000
    assert round(size, 4) == millimetres
    assert size > 0.002


def test_stokes_is_flagged_towards_a_tenth_of_a_millimetre() -> None:
    """Reynolds number by its definition from the Stokes speed; Oseen's first correction is 3/16 of it."""
    for size in (0.05e-3, 0.06e-3, 0.1e-3):
        speed = 0.1 / settling_time(size, depth=0.1, water=STATED, grain_density=GRAIN, gravity=GRAVITY)
        reynolds = 998.2 * speed * size / 0.001002
        assert reynolds_number(size, STATED, GRAIN, GRAVITY) == pytest.approx(reynolds, rel=1e-12)
    assert stokes_remarks(SETTLING, 0.05e-3, STATED) == ()
    (remark,) = stokes_remarks(SETTLING, 0.1e-3, STATED)
    assert remark.code == "stokes-too-fast"
    assert "16.8 %" in remark.says and "longer" in remark.says


def test_schedule_of_a_jar_at_20_degrees() -> None:
    sizes = GrainSizes.from_values(VALUES, "usda")
    schedule = reading_schedule(SETTLING, sizes, measure("10 cm", "length").si, measure("20 degC", "temperature").si)
    sand, silt, clay = schedule.readings
    assert (sand.layer, silt.layer, clay.layer) == ("sand", "silt", "clay")
    assert sand.time == pytest.approx(44.54, abs=0.01)
    assert silt.time == pytest.approx(7.732 * 3600, abs=5)
    assert clay.time is None and "clear" in clay.says
    assert "44.5 s" in sand.says and "7.73 h" in silt.says
    assert len(schedule.notes) == 3
