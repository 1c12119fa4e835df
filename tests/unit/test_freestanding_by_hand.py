"""Walls that stand alone, worked by hand: 16 in at 110 pcf on a footing of 24 by 12 in (150 pcf) and a stem of concrete
masonry, 16 by 12 in (140 pcf), earth of 100 psi.

R 1.25 (ASCE 7-05 Table 15.4-2, read in a public copy): c = 0.7 x 0.8 S_DS, at two thirds of the height.
5 ft, S_DS 0.20: W 733.3 plf, V 82.13 plf, M_o 273.8; k 0.572, a = W / 2 f = 0.02546 ft, M_r 269.0 lb ft / ft; under the
footing 533.1 against N 1 ft = 0.572 x (733.3 + 186.7 + 300).
"""

from __future__ import annotations

import pytest

from tests.recomputing import recomputed
from tests.unit.structural_houses import FOOT, PARTS, PLF, PSF, SITE, WALL, Facts, box, facts, number, run

STEM = {"ST1": {"material": "concrete-masonry", "thickness": "16 in", "above_grade": "12 in"}}
FOOTING = {"F1": {**PARTS["footings"]["F1"], "bottom": "12 in"}}
CALM = {"wind_speed": "30 mph"}


def garden(height: float, sds: float = 0.2, **site: object) -> Facts:
    wall = {**WALL, "use": "garden", "bears_load": "no", "braces": "no", "top_restraint": "free", "beam": None,
            "line_load": "0 plf", "load_eccentricity": "0 in", "height": f"{height} ft",
            "run": run(30, 0, 48, 0)}  # fmt: skip
    where = {**SITE, "sds": sds, **(site or CALM)}
    return facts({**box(20, 16), "G": wall}, site=where, stems=STEM, footings=FOOTING)


@pytest.mark.parametrize(
    ("height", "sds", "foot", "footing"),
    [(5, 0.20, 0.9824, 1.435), (4, 0.20, 1.238, 1.730), (6, 0.33, 0.4766, 0.7173)],
)
def test_overturning_at_the_foot_and_under_the_footing(height: float, sds: float, foot: float, footing: float) -> None:
    found = garden(height, sds)
    assert number(found, "wall.freestanding_overturning", "G") == pytest.approx(foot, rel=2e-4)
    assert number(found, "wall.freestanding_footing", "G") == pytest.approx(footing, rel=5e-4)
    for name in ("freestanding_overturning", "freestanding_footing", "rocking_factor"):
        for line in found.of("wall")["G"].fact(f"wall.{name}").steps:
            if line.formula and isinstance(line.result.value, float):
                assert recomputed(line) == pytest.approx(line.result.value)
    assert number(found, "wall.rocking_factor", "G") == pytest.approx(foot, rel=2e-4)


@pytest.mark.parametrize(("height", "soil"), [(5, 1534), (4, 1084)])
def test_the_soil_under_a_wall_pushed_over(height: float, soil: float) -> None:
    """The greater of the least and the greatest dead load: 1534 and 1365 psf for 5 ft, 969.6 and 1084 for 4 ft."""
    assert number(garden(height), "wall.freestanding_soil", "G") / PSF == pytest.approx(soil, rel=2e-3)


def test_wind_acts_at_0_55_of_the_height() -> None:
    """No earthquake: 0.6 W (t/2 - a) over 0.55 w h²."""
    found = garden(5, 0.0, wind_speed="110 mph")
    weight, w = 110 * 4 / 3 * 5 * PLF, number(found, "wall.wind_pressure", "G")
    inset = weight / (2 * 100 * 144 * PSF)
    quake = (0.6 * weight * (2 / 3 * FOOT - inset)) / (0.7 * 0.03 * weight * 2 / 3 * 5 * FOOT)
    wind = 0.6 * weight * (2 / 3 * FOOT - inset) / (0.55 * w * (5 * FOOT) ** 2)
    assert number(found, "wall.freestanding_overturning", "G") == pytest.approx(min(wind, quake), rel=1e-6)


def test_a_wall_of_the_house_does_not_stand_alone() -> None:
    for name in ("freestanding_overturning", "freestanding_footing", "freestanding_soil"):
        fact = garden(5).of("wall")["W1"].fact(f"wall.{name}")
        assert fact.value is None and "does not stand alone" in fact.reason
