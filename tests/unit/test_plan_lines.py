"""Straight lines and arcs of the plan: directions, nearest places, and when points make no line. By plane geometry."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from compliance.model.lines import Circular, Point, Straight, angle_between, arc_through, line_of
from compliance.model.walls import Wall

QUARTER = Circular((0.0, 0.0), 2.0, 0.0, math.pi / 2)


def test_an_arc_runs_at_right_angles_to_its_radius_the_way_it_turns() -> None:
    """On a circle of 2 m: a sixth of a quarter turn from where it starts, and at the start itself."""
    third = 2 * math.pi / 6
    assert QUARTER.direction(third) == pytest.approx((-math.sin(math.pi / 6), math.cos(math.pi / 6)))
    clockwise = Circular((0.0, 0.0), 2.0, math.pi / 2, -math.pi / 2)
    assert clockwise.direction(0.0) == pytest.approx((1, 0), abs=1e-12)
    assert clockwise.direction(third) == pytest.approx((math.cos(math.pi / 6), -math.sin(math.pi / 6)))


@pytest.mark.parametrize(
    ("point", "station", "away"),
    [
        ((2.0, -1.0), 0.0, 1.0),  # before the start
        ((-1.0, 2.0), math.pi, 1.0),  # beyond the end
        ((-1.0, -1.0), 0.0, math.sqrt(10)),  # as far from either: the start
        ((0.0, 3.0), math.pi, 1.0),  # straight out from the end
    ],
)
def test_beyond_an_arc_its_nearer_end_is_nearest(point: Point, station: float, away: float) -> None:
    assert QUARTER.nearest(point) == pytest.approx((station, away))


def test_a_small_arc_turns_the_way_its_points_go() -> None:
    """A quarter of a circle of 0.4 m about the origin, both ways round."""
    half = 0.4 * math.sqrt(0.5)
    for start, end, sweep in (((0.4, 0.0), (0.0, 0.4), math.pi / 2), ((0.0, 0.4), (0.4, 0.0), -math.pi / 2)):
        arc = arc_through(start, (half, half), end)
        assert arc is not None
        assert (arc.radius, arc.sweep) == pytest.approx((0.4, sweep))
        assert arc.centre == pytest.approx((0, 0), abs=1e-12)


@pytest.mark.parametrize(
    ("points", "most"),
    [  # four times the area is 4 × off, or 10 × off; the longest way between two of them 2 m, or 10 m
        (lambda off: ((-1.0, 0.0), (0.0, off), (1.0, 0.0)), 1e-9),
        (lambda off: ((0.0, 0.0), (-5.0, 0.0), (5.0, off)), 1e-8),
        (lambda off: ((0.0, 0.0), (0.0, -5.0), (off, 5.0)), 1e-8),
    ],
)
def test_points_as_good_as_in_line_are_no_arc(
    points: Callable[[float], tuple[Point, Point, Point]], most: float
) -> None:
    """To one part in a thousand million of the square of the longest way, and not to a little more."""
    assert arc_through(*points(0.95 * most)) is None
    assert arc_through(*points(1.05 * most)) is not None


def test_lines_along_each_other_are_at_no_angle_whatever_the_last_digit() -> None:
    """In floats the square of (cos 8°, sin 8°) is more than one, which is no cosine."""
    direction = math.cos(math.radians(8)), math.sin(math.radians(8))
    assert direction[0] ** 2 + direction[1] ** 2 > 1
    assert angle_between(direction, direction) == 0.0


@pytest.mark.parametrize(
    ("length", "thick", "is_line"),
    [
        ("0.2 m", {"thickness": "0.4 m"}, True),
        ("0.1999 m", {"thickness": "0.4 m"}, False),
        ("0.3 m", {"thickness": "0.4 m"}, True),
        ("0.3 m", {"thickness_base": "0.7 m", "thickness_top": "0.4 m"}, False),
    ],
)
def test_a_wall_is_at_least_half_as_long_as_thick_at_its_base(
    length: str, thick: dict[str, str], is_line: bool
) -> None:
    run = {"from": ["0 m", "0 m"], "to": [length, "0 m"]}
    found = line_of(Wall.model_validate({"run": run, "height": "2.4 m"} | thick))
    assert isinstance(found, Straight) is is_line


def test_a_wall_whose_arc_is_straight_has_no_line() -> None:
    arc = {"from": ["0 m", "0 m"], "through": ["1 m", "0 m"], "to": ["2 m", "0 m"]}
    assert line_of(Wall.model_validate({"arc": arc, "height": "2.4 m", "thickness": "0.4 m"})) is None
