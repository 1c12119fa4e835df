"""How far a push square to a wall is from tipping it as rigid blocks, worked by hand in feet and pounds. Synthetic."""

from __future__ import annotations

import math
from typing import Any

import pytest

from compliance.facts.loads.lateral_pressure import Action
from compliance.facts.strength.spanning import gathered, gathering
from compliance.steps import Given, Step
from tests.unit.structural_houses import (
    FOOT,
    PLF,
    PSF,
    ROOF,
    WALL,
    alone,
    bears,
    columns_of,
    crushed,
    described,
    facts_of,
    given,
    number,
    opening,
    push,
    run,
)


def sure_to_be_there(steps: tuple[Step, ...]) -> tuple[float, float]:
    """Weight of the earth, and what bears on its top [plf]."""
    says = "Weight sure to be there", "Load on top sure to be there, below zero where wind lifts more"
    earth, top = (float(next(one for one in steps if one.says == each).result.value) / PLF for each in says)
    return earth, top


WINDOW: dict[str, Any] = {"openings": {"A": opening(8, 4)}, "line_load": "300 plf", "load_eccentricity": "1 in"}
TAPER: dict[str, Any] = {"thickness": None, "thickness_base": "16 in", "thickness_top": "12 in"}


def test_a_held_pier_folds_under_what_the_window_beside_it_gathers() -> None:
    """2 T (√(W + P) + √(P (1/2 − e/T)))² / h² over 10/8 of the push: 0.6 of the earth of 8 ft of pier and of 2 ft over
    2 ft of window, 0.6 of a beam of 17.5 plf; the edges set in by n / 2 f, f 100 psi."""
    found = alone(**WINDOW)
    earth = 110 * 16 / 12 * (8 * 8 + 2 * 2)
    w, p = 0.6 * earth / 8, 0.6 * 17.5 * 10 / 8
    width = 16 / 12 - 2 * (300 * 10 + earth) / 8 / (2 * 100 * 144)
    folds = 2 * width * (math.sqrt(w + p) + math.sqrt(p * (0.5 - 1 / 12 / width))) ** 2 / 8**2
    assert number(found, "wall.rocking_factor") == pytest.approx(folds / (push(found) / PSF * 10 / 8), rel=1e-6)
    steps = found.of("wall")["W1"].fact("wall.rocking_factor").steps
    assert sure_to_be_there(steps) == pytest.approx((w, p))
    last = steps[-1]
    assert float(last.result.value) == pytest.approx(given(last)["w_r"] / given(last)["w_c"], rel=1e-12)
    assert given(last)["w_c"] == pytest.approx(push(found) * 10 / 8)


@pytest.mark.parametrize(("face", "middle", "lean"), [("outside", (72 + 80 / 3) / 14, 2), ("both", 8.0, 0)])
def test_a_free_pier_tips_over_its_base(face: str, middle: float, lean: float) -> None:
    """16 in under 12: with one face plumb the weight stands 7.05 in from it, the middle of the top 6 in; the base is
    taken twice the way from the weight to the nearer edge. 1 in more for where the beam bears."""
    found = alone(**WINDOW | TAPER | {"tapered_face": face, "top_restraint": "free"})
    earth = 110 / 12 * (14 * 8 * 8 + 12.5 * 2 * 2)
    w, p = 0.6 * earth / 8, 0.6 * 17.5 * 10 / 8
    inset = (300 * 10 + earth) / 8 / (2 * 100 * 144)
    aside = (8 - middle) / 12
    half, off = 16 / 12 / 2 - aside, 1 / 12 + lean / 12 - aside
    stands = w * (half - inset) + p * (half - off - inset)
    tips = push(found) / PSF * 10 / 8 * 8**2 / 2
    assert number(found, "wall.rocking_factor") == pytest.approx(stands / tips, rel=1e-6)
    steps = found.of("wall")["W1"].fact("wall.rocking_factor").steps
    assert sure_to_be_there(steps) == pytest.approx((w, p))


def test_the_thrust_of_a_roof_tips_a_free_pier_too() -> None:
    """320 plf of thrust (40 psf × 16² / (8 × 4)), 10/8 of it at the top of the pier."""
    roof = {**ROOF, "thrust_held_by": "none", "bears_on": bears("W1", eccentricity="2 in")}
    free: dict[str, Any] = {"top_restraint": "free", "beam": None, "line_load": None, "load_eccentricity": None}
    steps = alone({"R": roof}, **free, openings={"A": opening(8, 4)}).of("wall")["W1"].fact("wall.rocking_factor").steps
    turning = next(one for one in steps if one.says == "Overturning moment about the base")
    assert given(turning)["F"] == pytest.approx(320 * PLF * 10 / 8)
    assert float(turning.result.value) == pytest.approx(
        given(turning)["w"] * (8 * FOOT) ** 2 / 2 + 320 * PLF * 10 / 8 * 8 * FOOT
    )


def test_what_stands_at_an_end_without_width_has_no_factor() -> None:
    found = alone(**WINDOW | {"openings": {"A": opening(16, 4)}})
    assert number(found, "wall.rocking_factor") == 0.0


def test_a_short_pier_stands_too() -> None:
    """Two feet beside a window: less than a metre, and no end without width."""
    assert number(alone(**WINDOW | {"openings": {"A": opening(2, 4)}}), "wall.rocking_factor") > 0


def test_earth_without_strength_holds_nothing() -> None:
    wall = {**WALL, "run": run(0, 0, 20, 0), "line_load": "0 plf", "load_eccentricity": "0 in"}
    found = facts_of(described({"W1": wall}), {"C1": crushed(0, 100), "R1": crushed(0, 75, kind="rupture")})
    assert number(found, "wall.rocking_factor") == 0.0
    assert number(found, "wall.tension_allowed") == 0.0 and number(found, "wall.bending_use") == math.inf


def test_what_wind_presses_on_a_pier_gathers_half_of_its_openings() -> None:
    seen = columns_of(alone(**WINDOW | {"openings": {"A": opening(2, 4)}}))
    action = Action("wind", pressure=100.0, dead_share=0.6, lift=0.0, step=Step("", "", (), Given("", 0.0)))
    assert gathering(seen.all[0]) == pytest.approx(2)
    line = gathered(seen.all[0], action).step()
    assert line.says.startswith("Wind on P1") and line.result.value == pytest.approx(200.0)
    assert "the wall" in gathered(columns_of(alone()).all[0], action).step().says
    end = columns_of(alone(**WINDOW | {"openings": {"A": opening(16, 4)}}))
    assert gathering(end.all[-1]) == math.inf


def test_how_much_of_the_allowed_tension_is_used() -> None:
    """Tension over what is allowed; none where the section stays pressed."""
    pulled = alone(line_load="0 plf")
    use = number(pulled, "wall.bending_tension") / number(pulled, "wall.tension_allowed")
    assert use > 0 and number(pulled, "wall.bending_use") == pytest.approx(use, rel=1e-12)
    pressed = alone(thickness="60 in")
    assert number(pressed, "wall.bending_tension") < 0 and number(pressed, "wall.bending_use") == 0.0
