"""Braced panels by hand: of solid walls too, their aspect ratio, and what a line of walls has of them together."""

from __future__ import annotations

import math

import pytest

from compliance.facts.geometry.subjects import Facts
from tests.recomputing import recomputed
from tests.unit.structural_houses import FOOT, PLAIN, WALL, box, facts, number, opening, run


def house(**openings: dict[str, object]) -> Facts:
    """Walls of 20 and 16 ft, 8 ft high, the openings named by wall."""
    return facts({mark: {**wall, **PLAIN} for mark, wall in box(20, 16, **openings).items()})


def test_a_solid_wall_is_one_panel() -> None:
    found = house()
    assert number(found, "wall.shortest_panel") == pytest.approx(20 * FOOT) == number(found, "wall.line_panels")
    assert number(found, "wall.panel_aspect") == pytest.approx(8 / 20)
    assert number(found, "wall.shortest_panel", "W2") == pytest.approx(16 * FOOT)


def test_openings_part_a_wall_into_panels() -> None:
    """A door from 3 to 7 ft and a window from 12 to 15 ft leave 3, 5 and 5 ft."""
    found = house(W1={"A": opening(3, 4, 0, 7), "B": opening(12, 3, 3, 3)})
    assert number(found, "wall.shortest_panel") == pytest.approx(3 * FOOT)
    assert number(found, "wall.panel_aspect") == pytest.approx(8 / 3)
    assert number(found, "wall.line_panels") == pytest.approx(13 * FOOT)
    assert number(found, "wall.line_panels", "W3") == pytest.approx(20 * FOOT)
    last = found.of("wall")["W1"].fact("wall.line_panels").steps[-1]
    assert recomputed(last) == pytest.approx(13 * FOOT)


def test_an_opening_from_end_to_end_leaves_nothing() -> None:
    found = house(W1={"A": opening(0, 20, 0, 7)})
    assert number(found, "wall.shortest_panel") == 0 == number(found, "wall.line_panels")
    assert number(found, "wall.panel_aspect") == math.inf


def test_walls_in_one_line_count_together_and_others_do_not() -> None:
    """A wall inside in line with W1, 6 ft long, counts; one that does not brace, or 3 ft beside it, does not."""
    walls = {mark: {**wall, **PLAIN} for mark, wall in box(20, 16).items()}
    inside = {**WALL, **PLAIN, "use": "interior", "run": run(24, 0, 30, 0)}
    for extra, feet in ((inside, 26), (inside | {"braces": "no"}, 20), (inside | {"run": run(24, 3, 30, 3)}, 20)):
        assert number(facts(walls | {"X": extra}), "wall.line_panels") == pytest.approx(feet * FOOT)


def test_a_garden_wall_without_a_house_has_no_panels_in_its_line() -> None:
    """Nothing braces, and no wall of a house says how far a line reaches."""
    found = facts({"G": {**WALL, **PLAIN, "run": run(0, 0, 10, 0), "use": "garden", "braces": "no"}})
    assert number(found, "wall.line_panels", "G") == 0


def test_the_pieces_of_one_wall_are_one_panel() -> None:
    walls = {mark: {**wall, **PLAIN} for mark, wall in box(20, 16).items()}
    walls["W1"] |= {"run": run(0, 0, 9, 0)}
    walls["W5"] = {**walls["W1"], "run": run(9, 0, 20, 0)}
    found = facts(walls)
    for mark in ("W1", "W5"):
        assert number(found, "wall.shortest_panel", mark) == pytest.approx(20 * FOOT)
        assert number(found, "wall.line_panels", mark) == pytest.approx(20 * FOOT)


def test_wall_density_of_the_direction_that_has_less() -> None:
    """Walls 16 in thick around 20 by 16 ft between center lines, a door of 4 ft in one of the short ones: the shorter
    walls, 16 + 12 ft, over the plan to the outer faces, 21 ft 4 in by 17 ft 4 in."""
    found = house(W2={"A": opening(6, 4, 0, 7)})
    fact = found.of("project")["project"].fact("project.wall_density")
    assert fact.value == pytest.approx(28 * (4 / 3) / ((20 + 4 / 3) * (16 + 4 / 3)))
    assert recomputed(fact.steps[-1]) == pytest.approx(fact.value)


def test_walls_of_one_direction_alone_leave_the_other_without_any() -> None:
    walls = {mark: {**wall, **PLAIN} for mark, wall in box(20, 16).items()}
    for mark in ("W2", "W4"):
        walls[mark] |= {"braces": "no"}
    assert number(facts(walls), "project.wall_density") == 0
