"""Walls that bend when pushed square to their face, worked by hand in feet and pounds beside the facts."""

from __future__ import annotations

from typing import Any

import pytest

from tests.unit.structural_houses import (
    FOOT,
    FREE,
    INCH,
    PLF,
    alone,
    box,
    facts,
    number,
    opening,
    push,
)


def test_a_load_off_the_middle_of_a_free_top_adds_to_the_push() -> None:
    """w h² / 2 + n e at the base of a wall of 6 ft, n = 100 plf and e = 2 in, to the worse side."""
    found = alone(**FREE, height="6 ft", line_load="100 plf", load_eccentricity="2 in")
    expected = push(found) * (6 * FOOT) ** 2 / 2 + 100 * PLF * 2 * INCH
    assert number(found, "wall.lateral_moment") == pytest.approx(expected)


def test_a_tapered_wall_held_at_its_top_bends_above_mid_height() -> None:
    """8 ft, 18 in at the base and 12 at the top. At a depth z it is 12 + 6 z / 96 in thick and has z × its mean
    thickness of earth above it, 0.6 of it sure; tension 6 M / t² − N / t with M = w z (h − z) / 2, at every inch."""
    taper: dict[str, Any] = {
        "thickness": None,
        "thickness_base": "18 in",
        "thickness_top": "12 in",
        "tapered_face": "both",
    }
    found = alone(**taper, beam=None, top_restraint="roof")
    push, best = number(found, "wall.wind_pressure"), 0.0
    for z in range(1, 96):
        thick = 12 + 6 * z / 96
        moment, earth = push * z * (96 - z) / 2 * INCH**2, 0.6 * 110 * z / 12 * (12 + thick) / 24 * PLF
        best = max(best, 6 * moment / (thick * INCH) ** 2 - earth / (thick * INCH))
    assert number(found, "wall.bending_tension") == pytest.approx(best, rel=1e-3)


@pytest.mark.parametrize(
    ("openings", "left"),
    [
        ({"A": opening(2, 2, 3, 3), "B": opening(8, 2, 2, 4)}, 4),  # beside one another: the higher, 8 − 4 ft
        ({"A": opening(8, 3, 0, 3), "B": opening(10, 3, 5, 2)}, 3),  # in part above one another: 8 − 3 − 2
        ({"A": opening(8, 2, 0, 3), "B": opening(10, 2, 5, 2)}, 5),  # one begins where the other ends: 8 − 3
    ],
)
def test_openings_above_one_another_leave_less_height_to_bend_sideways(openings: dict[str, Any], left: float) -> None:
    """A free top between crossing walls at 0 and 20 ft: w × 8 / left × L² / 8."""
    walls = box(20, 16)
    for one in walls.values():
        one |= {"line_load": "0 plf", "load_eccentricity": "0 in"}
    walls["W1"] |= {**FREE, "openings": openings}
    found = facts(walls)
    expected = push(found) * 8 / left * (20 * FOOT) ** 2 / 8
    assert number(found, "wall.lateral_moment") == pytest.approx(expected)
