"""Where walls meet in the plan. The references are numpy's solution of two lines and the geometry of the circle."""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from compliance.facts.geometry.plan.lateral_supports import find_stretches
from compliance.facts.geometry.wall_plan import Support, WallLine
from compliance.model.lines import Straight, arc_through
from tests.support_rules import RULES, find_supports

THICK, HIGH = 0.4, 2.4

Ends = tuple[tuple[float, float], tuple[float, float]]
place = st.floats(-20, 20).map(lambda value: round(value, 3))
point = st.tuples(place, place)
ends = st.tuples(point, point).filter(lambda both: math.dist(*both) > 3)


def wall(mark: str, start: tuple[float, float], end: tuple[float, float], thick: float = THICK) -> WallLine:
    return WallLine(mark, Straight(start, end), HIGH, thick)


def met(*walls: WallLine) -> dict[str, tuple[Support, ...]]:
    return find_supports({one.mark: one for one in walls})


def apart(*walls: WallLine) -> bool:
    """Whether none of the walls runs on into another."""
    found = find_stretches({one.mark: one for one in walls}, {}, RULES)
    return all(len(one.stretch.marks) == 1 for one in found.values())


@given(ends, ends)
def test_walls_cross_where_their_lines_do(first: Ends, second: Ends) -> None:
    (a, b), (c, d) = (np.array(one) for one in first), (np.array(one) for one in second)
    system = np.column_stack([b - a, c - d])
    assume(abs(np.linalg.det(system)) > 1)
    u, v = np.linalg.solve(system, c - a)
    walls = wall("A", *first), wall("B", *second)
    assume(apart(*walls))
    found = met(*walls)
    if 0 <= u <= 1 and 0 <= v <= 1:
        near = [one.s for one in found["A"]]
        assert any(abs(s - u * math.dist(*first)) <= THICK for s in near)
        if min(u, 1 - u) * math.dist(*first) > 1 and min(v, 1 - v) * math.dist(*second) > 1:
            angle = abs(np.linalg.det(system)) / math.dist(*first) / math.dist(*second)
            assume(angle > 0.5)
            assert near == pytest.approx([u * math.dist(*first)])
            assert [one.s for one in found["B"]] == pytest.approx([v * math.dist(*second)])
    elif any(x < -0.5 or x > 1.5 for x in (u, v)):
        assert not any(one.why_not == "" for one in (*found["A"], *found["B"]))


@given(st.lists(ends, min_size=2, max_size=12))
def test_walls_far_and_near_meet_as_each_pair_does_alone(runs: list[Ends]) -> None:
    walls = [wall(f"W{index:02}", *one) for index, one in enumerate(runs)]
    assume(apart(*walls))
    by_pairs: dict[str, list[Support]] = {one.mark: [] for one in walls}
    for pair in combinations(walls, 2):
        for mark, supports in met(*pair).items():
            by_pairs[mark] += supports
    expected = {mark: tuple(sorted(found, key=lambda one: (one.s, one.by))) for mark, found in by_pairs.items()}
    assert met(*walls) == expected


@pytest.mark.parametrize(
    ("degrees", "half"),
    [
        (90, 0.15),
        (60, 0.15 / math.sin(math.pi / 3)),
        (30, 0.3),
        (10, 0.15 / math.sin(math.pi / 18)),
        (4, 0.15),
        (5.8, 0.15 / math.sin(math.radians(5.8))),
        (5.7, 0.15),
    ],  # the sine of 5.74 degrees is a tenth
)
def test_half_of_what_crosses_at_an_angle(degrees: float, half: float) -> None:
    """Half its thickness over the sine; nearly along the wall, where that grows without end, half its thickness."""
    x, y = 20 * math.cos(math.radians(degrees)), 20 * math.sin(math.radians(degrees))
    found = met(wall("A", (-20, 0), (20, 0)), wall("B", (-x, -y), (x, y), 0.3))["A"]
    assert [one.s for one in found] == pytest.approx([20])
    assert found[0].half_width == pytest.approx(half)


def test_a_straight_wall_across_a_round_one() -> None:
    """The line y = 1.2 m cuts the circle of 3 m about the origin at x = ±√(9 − 1.44)."""
    arc = arc_through((-3, 0), (0, 3), (3, 0))
    assert arc is not None
    found = met(WallLine("round", arc, HIGH, THICK), wall("straight", (-5, 1.2), (5, 1.2)))
    x = math.sqrt(9 - 1.2**2)
    assert [one.s for one in found["straight"]] == pytest.approx([5 - x, 5 + x], abs=5e-3)
    rise = math.asin(1.2 / 3)
    assert [one.s for one in found["round"]] == pytest.approx([3 * rise, 3 * (math.pi - rise)], abs=5e-3)


@pytest.mark.parametrize("less", [0.0, 1e-6])
@pytest.mark.parametrize("what", ["height", "length", "thickness", "angle"])
def test_what_is_just_enough_holds_and_a_hair_less_does_not(what: str, less: float) -> None:
    """The height but for 0.1 m, a fifth of it from the face, three tenths of the thickness, 48 degrees."""
    share = 1 - less
    high = (HIGH - 0.1) * (share if what == "height" else 1)
    long = (
        THICK / 2 + 0.2 * HIGH * (share if what == "length" else 1)
        if what in ("height", "length", "thickness")
        else 3.0
    )
    thick = 0.3 * THICK * (share if what == "thickness" else 1)
    angle = math.radians(48) * share if what == "angle" else math.pi / 2
    by = WallLine("B", Straight((3, 0), (3 + long * math.cos(angle), long * math.sin(angle))), high, thick)
    (support,) = met(wall("A", (0, 0), (6, 0)), by)["A"]
    assert bool(support.why_not) is bool(less)
