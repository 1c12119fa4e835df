"""Piers and walls that brace, and walls that may carry nothing, exactly where it matters. Synthetic numbers."""

from __future__ import annotations

import math
from typing import Any

import pytest

from compliance.facts.loads.lateral_pressure import EARTHQUAKE
from compliance.facts.mechanics.eccentricity import MiddleCurve, within_curve
from tests.unit.structural_houses import FOOT, INCH, WALL, facts, missing, number, opening, run
from tests.unit.test_stability_facts import house

TAPER: dict[str, Any] = {"thickness": None, "thickness_base": "16 in", "thickness_top": "12 in", "tapered_face": "both"}


def test_each_pier_has_its_own_force_over_its_own_length() -> None:
    """3 and 13 ft: stiffness goes by t / (4 (h/L)³ + 3 h/L), so the short pier takes far less than its length."""
    found = house(openings={"A": opening(3, 4)})
    stresses = {}
    for mark, long in (("W1.P1", 3), ("W1.P2", 13)):
        fact = found.of("pier")[mark].fact("pier.shear_stress")
        lengths = [float(one.value) for one in fact.steps[-1].given if one.symbol == "L"]
        assert lengths == pytest.approx([long * FOOT])
        stresses[mark] = number(found, "pier.shear_stress", mark)
    assert stresses["W1.P1"] < stresses["W1.P2"]


def test_a_pier_of_a_wall_that_does_not_brace_has_no_stress() -> None:
    found = house(openings={"A": opening(3, 4)}, braces="no")
    fact = found.of("pier")["W1.P1"].fact("pier.shear_stress")
    assert fact.value is None and "brace" in fact.reason


def test_a_pier_lacks_what_its_building_lacks() -> None:
    for name in ("pier.shear_stress", "pier.tipping_factor"):
        assert missing(house({"wind_speed": None}, openings={"A": opening(3, 4)}), name, "W1.P1")


def test_a_tapered_wall_is_sheared_where_it_is_thinnest() -> None:
    found = house(**TAPER)
    force = number(found, "wall.brace_shear")
    assert number(found, "wall.shear_stress") == pytest.approx(force / (12 * INCH * 20 * FOOT), rel=1e-9)


@pytest.mark.parametrize(("sds", "quake"), [(0.0, False), (1.2, True)])
def test_the_share_of_dead_load_is_told_for_what_pushes(sds: float, quake: bool) -> None:
    steps = house({"sds": sds}).of("wall")["W1"].fact("wall.tipping_factor").steps
    shares = [one for one in steps if one.says.startswith("Share of dead load")]
    assert [EARTHQUAKE in one.says for one in shares] == [quake]


def test_where_the_curve_of_buckling_still_reaches() -> None:
    """1.5 − 2 e/t: with e/t of 0.4 there is 0.7 left of it, with 0.8 nothing; at e/t of a half the wall is left."""
    curve = MiddleCurve(start=0.0, span=1.5, slope=2.0)
    assert within_curve(0.4, 1.0, curve) and within_curve(0.8, 1.0, curve)
    short = MiddleCurve(start=0.0, span=0.6, slope=2.0)
    assert not within_curve(0.4, 1.0, short) and within_curve(0.2, 1.0, short)


def test_a_wall_that_may_carry_nothing_is_used_without_bound() -> None:
    """The load bears at the very face of 16 in: nothing is left of the section."""
    found = facts({"W1": {**WALL, "run": run(0, 0, 20, 0), "line_load": "100 plf", "load_eccentricity": "8 in"}})
    assert number(found, "wall.eccentric_resistance") == 0.0
    assert number(found, "wall.axial_use") == math.inf
