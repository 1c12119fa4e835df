"""Inner corners of the plan, free ends of the bond beam, toes of piers and gaps at a wall's end, by hand."""

from __future__ import annotations

import math

import pytest

from tests.recomputing import recomputed
from tests.unit.structural_houses import FOOT, LBF, PLAIN, PSI, SITE, WALL, Facts, box, facts, number, opening, run

L_ENDS = {"A": (0, 0, 24, 0), "B": (24, 0, 24, 12), "C": (24, 12, 12, 12), "D": (12, 12, 12, 24), "E": (12, 24, 0, 24),
          "F": (0, 24, 0, 0)}  # fmt: skip


def l_house(**extra: dict[str, object]) -> Facts:
    """An L of two wings 12 ft wide, 24 ft along each leg."""
    walls = {mark: {**WALL, **PLAIN, "run": run(*ends)} for mark, ends in L_ENDS.items()}
    return facts(walls | {mark: {**WALL, **PLAIN, **wall} for mark, wall in extra.items()})


def test_an_inner_corner_and_the_wall_that_runs_on_through_it() -> None:
    """Half of the plan both ways stands beyond the corner; a wall inside, in line with one of its walls, braces it."""
    bare, braced = l_house(), l_house(X={"use": "interior", "run": run(12, 0, 12, 12)})
    idle = l_house(X={"use": "interior", "braces": "no", "run": run(12, 0, 12, 12)})
    for found, unbraced in ((bare, 0.5), (braced, 0.0), (idle, 0.5)):
        assert number(found, "project.re_entrant_share") == pytest.approx(0.5)
        assert number(found, "project.re_entrant_unbraced") == pytest.approx(unbraced)
    assert number(facts(box(20, 16)), "project.re_entrant_share") == 0.0


def test_a_bond_beam_past_its_last_support() -> None:
    """A wall of 30 ft held at 0 and 20 ft: over the last support w h / 2 × 10² / 2; held at 0 alone, nothing does."""
    walls = box(20, 16)
    walls["W1"] |= {"run": run(0, 0, 30, 0)}
    for mark in ("W1", "W2", "W3", "W4"):
        walls[mark] |= PLAIN
    found = facts(walls)
    fact = found.of("wall")["W1"].fact("wall.beam_cantilever")
    reaction = number(found, "wall.lateral_pressure") * 8 * FOOT / 2
    assert fact.value == pytest.approx(reaction * (10 * FOOT) ** 2 / 2)
    assert recomputed(fact.steps[-1]) == pytest.approx(fact.value)
    walls.pop("W2")
    assert facts(walls).of("wall")["W1"].fact("wall.beam_cantilever").value == math.inf
    whole = facts({**box(20, 16)}).of("wall")["W1"].fact("wall.beam_cantilever")
    assert whole.value is None and "no free end" in whole.reason


def test_the_bond_beam_takes_the_reaction_of_the_wall() -> None:
    """w h / 2 over 20 ft, not the least anchorage of codes."""
    found = facts({mark: {**wall, **PLAIN} for mark, wall in box(20, 16).items()})
    reaction = number(found, "wall.lateral_pressure") * 8 * FOOT / 2
    assert number(found, "wall.beam_moment") == pytest.approx(reaction * (20 * FOOT) ** 2 / 8)
    assert number(found, "wall.anchorage_force") > reaction


def test_the_toe_of_a_pier() -> None:
    """All of the dead load with 0.14 S_DS of it more, off the middle by V h over it: 2 N / (3 t (L/2 - e)), for a
    part of the base opens."""
    walls = {mark: {**wall, **PLAIN} for mark, wall in box(20, 16, W1={"A": opening(8, 4, 0, 7.5)}).items()}
    found = facts(walls, site={**SITE, "sds": 0.5, "wind_speed": "30 mph"})
    fact = found.of("pier")["W1.P1"].fact("pier.toe_pressure")
    shear = number(found, "wall.brace_shear") / 2
    load = (1 + 0.14 * 0.5) * ((17.5 * 10 + 110 * 4 / 3 * (8 * 8 + 0.5 * 2)) * LBF)
    off = shear * 8 * FOOT / load  # too little earth over the door couples nothing: a cantilever from the floor
    assert off > 8 / 6 * FOOT
    pressure = 2 * load / (3 * 4 / 3 * FOOT * (4 * FOOT - off))
    assert fact.value == pytest.approx(pressure, rel=1e-6)
    assert 0 < pressure / PSI < 100 / 3


@pytest.mark.parametrize(
    ("start", "width", "height", "solid"),
    [(16, 4, 8, False), (16, 4, 7, False), (0, 4, 8, False), (15, 4, 8, True), (8, 4, 8, True)],
)
def test_a_gap_at_the_end_of_a_wall(start: float, width: float, height: float, solid: bool) -> None:
    """A wall of 20 ft. What lies over an opening that reaches an end rests on one side alone, however low it is."""
    found = facts(box(20, 16, W1={"A": opening(start, width, 0, height)}))
    fact = found.of("wall")["W1"].fact("wall.ends_solid")
    assert fact.value is (True if solid else None)
    assert fact.missing == (() if solid else (("walls", "W1", "openings", "A", "start"),))


def test_a_ring_is_said_once() -> None:
    """A regular octagon, its corners rounded to whole inches, makes the same ring: no pier or wall is judged alone."""
    for places in ([(30, 72), (72, 30)], [(29.8, 72.1), (72.1, 29.8)]):
        (a, b), _ = places
        corners = [(a, b), (-a, b), (-b, a), (-b, -a), (-a, -b), (a, -b), (b, -a), (b, a)]
        feet = [(x / 12, y / 12) for x, y in corners]
        walls = {f"O{n}": {**WALL, **PLAIN, "run": run(*feet[n], *feet[(n + 1) % 8])} for n in range(8)}
        found = facts(walls)
        assert number(found, "project.closed_rings") == 1
        assert found.of("project")["project"].fact("project.braced_both_ways").value is True
        for mark in walls:
            for name in ("brace_shear", "shear_stress", "tipping_factor"):
                fact = found.of("wall")[mark].fact(f"wall.{name}")
                assert fact.value is None and "closed ring" in fact.reason
