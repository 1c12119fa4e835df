"""The plan in characters: every wall with its mark, to scale, gaps where openings are."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.model.project import Project
from compliance.output.terminal.plan_text import plan_text
from compliance.reading.project_folder import read_project
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.start.interview.trial_reading import new_project, trial_reading
from compliance.start.interview.unattended import answers_of
from tests.conftest import EXAMPLE
from tests.tries import tries

DAY = date(2026, 5, 14)
BASE = "name: House\nplace: Quillmoor County\nrule_sets: cob-practice\nheight: 8 ft\nthickness: 1 ft\n"


def project(sizes: str) -> Project:
    found = trial_reading(answers_of(parse_yaml(BASE + sizes, "answers"), new_project(DAY)), DAY).project
    assert found is not None
    return found


@settings(max_examples=tries(8))
@given(st.integers(6, 60), st.integers(6, 60), st.integers(50, 120))
def test_a_rectangle_is_to_scale(length: int, width: int, columns: int) -> None:
    """A character is taken to be twice as tall as wide; what is drawn is within a character of its size."""
    *drawn, legend = plan_text(project(f"length: {length} ft\nwidth: {width} ft\n"), columns).splitlines()
    wide, tall = max(map(len, drawn)) - 3 - 1, len(drawn) - 1
    assert wide <= 56 and tall <= 24 and all(len(line) <= columns for line in drawn)
    assert abs(wide * (width - 1) - 2 * tall * (length - 1)) <= 2 * max(length, width)
    for mark in ("W1", "W2", "W3", "W4"):
        assert sum(line.count(mark) for line in drawn) == 1
    assert f"{length - 1} ft by {width - 1} ft" in legend


def test_a_circle_is_as_tall_as_it_is_wide() -> None:
    *drawn, legend = plan_text(project("length: round\ndiameter: 19 ft\n"), 100).splitlines()
    assert abs((max(map(len, drawn)) - 4) - 2 * (len(drawn) - 1)) <= 2
    assert "18 ft by 18 ft" in legend and "opening" not in legend


def test_openings_are_gaps_of_their_length() -> None:
    holes = "openings: {W1: [{kind: door, start: 4 ft, width: 6 ft, sill: 0 ft, height: 6 ft 8 in}]}\n"
    *drawn, legend = plan_text(project(f"length: 29 ft\nwidth: 20 ft\n{holes}"), 100).splitlines()
    assert drawn[-1].count("o") == pytest.approx(6 / 28 * (max(map(len, drawn)) - 3), abs=2)
    assert "o is an opening" in legend


def test_every_wall_of_the_example_is_drawn() -> None:
    walls = read_project(EXAMPLE).project
    text = plan_text(walls, 100)
    assert all(mark in text for mark in walls.walls)


def test_a_project_without_walls_has_no_plan() -> None:
    text = "name: Day\nbegin: earth\nsoils: clay\n"
    found = trial_reading(answers_of(parse_yaml(text, "answers"), new_project(DAY)), DAY).project
    assert found is not None and plan_text(found, 100) == ""
