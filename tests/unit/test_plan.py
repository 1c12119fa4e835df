"""Lines of walls and what supports them, found from the plan."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.facts.geometry.wall_facts import largest_gap
from compliance.facts.geometry.wall_plan import wall_line
from compliance.model.lines import Circular, Straight, angle_between, arc_through
from compliance.model.walls import Buttress, Wall
from tests.support_rules import find_supports


def straight(x0: float, y0: float, x1: float, y1: float, **more: object) -> Wall:
    return Wall.model_validate(
        {"run": {"from": [f"{x0} m", f"{y0} m"], "to": [f"{x1} m", f"{y1} m"]}, "height": "2.4 m", "thickness": "0.4 m"}
        | more
    )


def supports_of(walls: dict[str, Wall], buttresses: dict[str, Buttress] | None = None) -> dict[str, list[float]]:
    lines = {mark: line for mark, wall in walls.items() if (line := wall_line(mark, wall))}
    found = find_supports(lines, buttresses)
    return {mark: [round(one.s, 9) for one in supports if not one.why_not] for mark, supports in found.items()}


def test_a_room_has_a_support_at_each_corner() -> None:
    walls = {
        "A": straight(0, 0, 6, 0), "B": straight(6, 0, 6, 4), "C": straight(6, 4, 0, 4), "D": straight(0, 4, 0, 0)
    }  # fmt: skip
    assert supports_of(walls) == {"A": [0, 6], "B": [0, 4], "C": [0, 6], "D": [0, 4]}


def test_a_wall_that_ends_on_another_holds_it_and_is_held() -> None:
    assert supports_of({"A": straight(0, 0, 6, 0), "B": straight(2.5, 0, 2.5, 3)}) == {"A": [2.5], "B": [0]}


def test_a_wall_that_ends_at_the_face_of_another_still_meets_it() -> None:
    assert supports_of({"A": straight(0, 0, 6, 0), "B": straight(2.5, 0.2, 2.5, 3)})["A"] == [2.5]
    assert supports_of({"A": straight(0, 0, 6, 0), "B": straight(2.5, 0.22, 2.5, 3)})["A"] == [2.5]
    assert supports_of({"A": straight(0, 0, 6, 0), "B": straight(2.5, 0.23, 2.5, 3)})["A"] == []


def test_walls_that_cross_hold_each_other() -> None:
    assert supports_of({"A": straight(0, 0, 6, 0), "B": straight(2, -2, 2, 2)}) == {"A": [2], "B": [2]}


def test_a_wall_in_line_with_another_does_not_hold_it() -> None:
    assert supports_of({"A": straight(0, 0, 6, 0), "B": straight(6, 0, 9, 0)}) == {"A": [], "B": []}


def test_a_low_wall_a_stub_and_a_thin_wall_do_not_count() -> None:
    low = straight(2, 0, 2, 3, height="2.2 m")
    stub = straight(2, 0, 2, 0.67)
    thin = straight(2, 0, 2, 3, thickness="0.11 m")
    for by in (low, stub, thin):
        assert supports_of({"A": straight(0, 0, 6, 0), "B": by})["A"] == []


def test_a_wall_with_a_door_at_the_junction_does_not_count() -> None:
    door = {"D": {"kind": "door", "start": "0.6 m", "width": "1 m", "height": "2 m", "sill": "0 m"}}
    by = straight(2, 0, 2, 2.2, openings=door)
    assert supports_of({"A": straight(0, 0, 6, 0), "B": by})["A"] == []


def test_a_buttress_counts_when_it_is_deep_and_high_enough() -> None:
    deep = Buttress.model_validate(
        {"wall": "A", "at": "3 m", "projection": "0.5 m", "width": "0.4 m", "height": "2.4 m"}
    )
    low = deep.model_copy(update={"height": straight(0, 0, 1, 0, height="1 m").height})
    assert supports_of({"A": straight(0, 0, 6, 0)}, {"B1": deep})["A"] == [3]
    assert supports_of({"A": straight(0, 0, 6, 0)}, {"B1": low})["A"] == []


def test_largest_gap_counts_free_ends() -> None:
    assert largest_gap([2.0], 6.0) == (2.0, 6.0, 4.0)
    assert largest_gap([], 6.0) == (0.0, 6.0, 6.0)
    assert largest_gap([0.0, 6.0, 2.5], 6.0) == (2.5, 6.0, 3.5)


def test_arc_of_a_half_circle() -> None:
    """Half a circle of radius 2: length 2π, its middle on the y axis."""
    arc = arc_through((-2, 0), (0, 2), (2, 0))
    assert isinstance(arc, Circular)
    assert math.isclose(arc.length, 2 * math.pi)
    assert arc.point(math.pi) == pytest.approx((0, 2), abs=1e-12)
    assert arc.nearest((0, 3)) == pytest.approx((math.pi, 1))
    assert arc.end == pytest.approx((2, 0), abs=1e-12)


def test_three_points_in_line_are_no_arc() -> None:
    assert arc_through((0, 0), (1, 1), (2, 2)) is None


point = st.tuples(st.floats(-20, 20), st.floats(-20, 20))


@given(point, point, point)
def test_an_arc_passes_its_three_points(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> None:
    area = abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))
    arc = arc_through(a, b, c)
    if arc is None or area < 0.5:
        return
    assert arc.start == pytest.approx(a, abs=1e-6)
    assert arc.end == pytest.approx(c, abs=1e-6)
    assert arc.nearest(b)[1] == pytest.approx(0, abs=1e-6)


def test_the_box_round_a_line() -> None:
    """That of an arc is that of its whole circle."""
    assert Straight((3, -1), (-2, 4)).box() == (-2, -1, 3, 4)
    high = 3 * math.sin(0.5)
    assert Circular((1, 2), 3, 0.5, -1.0).box() == pytest.approx((1 + 3 * math.cos(0.5), 2 - high, 4, 2 + high))
    assert Circular((1, 2), 3, 0.0, 2 * math.pi).box() == pytest.approx((-2, -1, 4, 5))
    assert Circular((1, 2), 3, math.pi, math.pi).box() == pytest.approx((-2, -1, 4, 2))


@given(st.floats(-360, 360), st.floats(-360, 360))
def test_the_angle_between_two_lines_takes_no_account_of_their_sense(one: float, other: float) -> None:
    directions = [(math.cos(math.radians(degrees)), math.sin(math.radians(degrees))) for degrees in (one, other)]
    apart = abs(one - other) % 180
    # Near 0 an angle by its cosine loses half of the digits.
    assert math.degrees(angle_between(*directions)) == pytest.approx(min(apart, 180 - apart), abs=2e-6)


@given(st.permutations(["A", "B", "C", "D", "E"]))
def test_order_of_walls_never_matters(order: list[str]) -> None:
    walls = {
        "A": straight(0, 0, 6, 0), "B": straight(6, 0, 6, 4), "C": straight(6, 4, 0, 4), "D": straight(0, 4, 0, 0),
        "E": straight(2, 0, 2, 4),
    }  # fmt: skip
    found = supports_of({mark: walls[mark] for mark in order})
    assert found == supports_of(walls)


@given(st.floats(0, 6))
def test_nearest_on_a_straight_line(s: float) -> None:
    line = Straight((0, 0), (0, 6))
    assert line.nearest((1.0, s)) == pytest.approx((s, 1.0))
