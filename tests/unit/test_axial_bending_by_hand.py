"""Load with bending, lintels that sag, statements that differ: worked by hand. Statics; figures invented."""

from __future__ import annotations

import pytest

from compliance.facts.mechanics.lintels import lintel_sag
from compliance.facts.mechanics.sections import second_moment
from compliance.facts.strength.axial_bending import axial_part, bending_part, both_together
from tests.unit.structural_houses import (
    INCH,
    PLF,
    PSI,
    WALL,
    alone,
    box,
    columns_of,
    facts,
    number,
    opening,
    push,
)


@pytest.mark.parametrize(("strength", "wind", "sum_of_uses"), [(60, 30, 0.7319), (60, 60, 1.013), (100, 60, 0.6079)])
def test_the_unity_equation(strength: float, wind: float, sum_of_uses: float) -> None:
    """16 in, 8 ft, N 1,187 plf at mid-height, 600 of them 1 in off: M = w h² / 8 + P e / 2, and its second order in w.
    F_a = 0.25 f (1 − (20.785 / 140)²), F_b = f / 3."""
    top = 600 / 12
    moment = wind * 64 / 8 + top / 2 + top**2 / (2 * wind * 64)
    bent, pressed = bending_part(moment, 4 / 3), axial_part(1187.0, 4 / 3)
    found = both_together(pressed, 0.25 * strength * 144 * 0.97796, bent, strength / 3 * 144)
    assert found == pytest.approx(sum_of_uses, rel=2e-3)


def test_a_plain_wall_under_wind_and_its_roof() -> None:
    """300 plf, 1 in off, on 8 ft of 16 in: all loads alone, dead load with the wind, 0.75 of both."""
    found = alone(line_load="300 plf", load_eccentricity="1 in")
    dead, own, w = 17.5 * PLF, 110 * 4 / 3 * 4 * PLF, push(found)
    uses = []
    for more, share in ((1.0, 0.0), (0.0, 1.0), (0.75, 0.75)):
        load = dead + more * (300 * PLF - dead)
        top, pushed = load * INCH, share * w * (8 * 12 * INCH) ** 2
        moment = top if pushed <= 2 * top else pushed / 8 + top / 2 + top**2 / (2 * pushed)
        fb = 6 * moment / (16 * INCH) ** 2
        uses.append((load + own) / (16 * INCH) / number(found, "wall.slender_allowable") + fb / (100 / 3 * PSI))
    assert len(columns_of(found).all) == 1
    assert number(found, "wall.combined_use") == pytest.approx(max(uses), rel=1e-6)


@pytest.mark.parametrize(
    ("inches", "deep", "sag"), [(48, 5.5, 0.02423), (84, 5.5, 0.2273), (84, 7.25, 0.0992)]
)  # fmt: skip
def test_a_lintel_sags_as_the_handbook_formula_says(inches: float, deep: float, sag: float) -> None:
    """5 q L⁴ / (384 E I), 700 plf, 12 in wide, E 1,000,000 psi: in pounds and inches."""
    assert lintel_sag(700 / 12, inches, 1e6, second_moment(12, deep)) == pytest.approx(sag, rel=2e-3)


def test_a_lintel_of_stated_stiffness_sags_in_proportion() -> None:

    soft = opening(8, 4)
    stiff = {**soft, "lintel": {**soft["lintel"], "modulus": "2000000 psi"}}
    held = [alone(line_load="300 plf", load_eccentricity="0 in", openings={"A": one}) for one in (soft, stiff)]
    sags = [number(one, "opening.lintel_sag", "W1.A") for one in held]
    assert sags[0] == pytest.approx(2 * sags[1])
    assert number(held[0], "opening.lintel_span", "W1.A") == pytest.approx(60 * INCH)
    assert number(held[0], "opening.lintel_slenderness", "W1.A") == pytest.approx(10)


def test_two_lintels_on_one_pier_share_it() -> None:
    """A pier of 24 in under bearings of 12 in each: (24 − 4) / 2 = 10 in count, 1.2 times the pressure."""
    openings = {"A": opening(4, 3), "B": opening(9, 3)}
    shared = alone(line_load="300 plf", load_eccentricity="0 in", openings=openings)
    single = alone(line_load="300 plf", load_eccentricity="0 in", openings={"A": opening(4, 3)})
    pressures = [number(one, "opening.lintel_pressure", "W1.A") for one in (shared, single)]
    assert pressures[0] == pytest.approx(1.2 * pressures[1])


def test_the_severer_of_two_statements_holds() -> None:
    """12 in of stem, 8 ft, a beam of 6 in: 9 ft 6 in under a building said to be 7 ft high; a wall of story 2."""
    low = {"name": "Trial", "date": "2026-01-02", "stories": 1, "building_height": "7 ft", "units": "us"}
    assert number(facts(box(20, 16), project=low), "project.building_height") == pytest.approx(114 * INCH)
    upper = box(20, 16) | {"U": {**WALL, "run": box(20, 16)["W1"]["run"], "story": 2}}
    assert number(facts(upper), "project.stories") == 2
