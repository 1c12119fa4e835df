"""Which straight walls are the chords of one arc."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import pytest

from compliance.facts.geometry.plan.chains import Chain, Link
from compliance.facts.geometry.plan.chords import arc_of_chords, direction_at, join_chords, turns_of
from compliance.facts.geometry.wall_plan import WallLine
from compliance.model.lines import Circular, Straight

Point = tuple[float, float]


def corners(turns: Sequence[float], length: float = 2.0) -> list[Point]:
    """Corners of a way of sides of one length that turns by so many degrees between them."""
    found, heading = [(0.0, 0.0), (length, 0.0)], 0.0
    for turn in turns:
        heading += math.radians(turn)
        x, y = found[-1]
        found.append((x + length * math.cos(heading), y + length * math.sin(heading)))
    return found


def groups(points: Sequence[Point]) -> list[tuple[Link, ...]]:
    links: list[Link] = []
    for place, (one, other) in enumerate(pairwise(points)):
        wall = WallLine(f"W{place}", Straight(one, other), height=2.4, thickness=0.4)
        links.append(Link(wall, links[-1].end if links else 0.0, False))
    return [(link,) for link in links]


def sizes(points: Sequence[Point], alike: bool = True) -> list[int]:
    return [len(group) for group in join_chords(groups(points), lambda one, other: alike)]


@pytest.mark.parametrize(
    ("turns", "expected"),
    [
        ((10, 10), [3]),
        ((15, 15, 15, 15), [5]),
        ((10,), [1, 1]),  # the corners of two lie on a circle however they turn
        ((16, 16, 16), [1, 1, 1, 1]),
        ((10, -10, 10), [1, 1, 1, 1]),
        ((10, 10, 0, 0), [3, 1, 1]),
        ((10, 10, 10, -10, -10), [4, 1, 1]),
        ((45, 10, 10, 45), [1, 3, 1]),
    ],
)
def test_chords_of_one_arc(turns: Sequence[float], expected: list[int]) -> None:
    assert sizes(corners(turns)) == expected


def test_chords_off_the_circle_are_no_arc() -> None:
    points = corners((10, 10, 10))
    assert sizes([*points[:2], (points[2][0], points[2][1] + 0.6), *points[3:]]) == [1, 1, 1, 1]


@pytest.mark.parametrize(("sense", "share", "expected"), [(1, 1.0, [4]), (-1, 1.0, [1, 3]), (1, 1.1, [1, 3])])
def test_an_arc_that_goes_on_as_its_chords(sense: int, share: float, expected: list[int]) -> None:
    """One wall drawn partly so and partly so; not an arc that bends the other way, nor one of a larger circle."""
    x, y = share * 1.0, sense * share / math.tan(math.radians(5))
    line = Circular((x, y), math.hypot(x, y), math.atan2(-y, -x) - sense * 0.6, sense * 0.6)
    assert line.end == pytest.approx((0.0, 0.0))
    links = [Link(WallLine("A", line, height=2.4, thickness=0.4), 0.0, False)]
    for (link,) in groups(corners((10, 10))):
        links.append(Link(link.wall, links[-1].end, False))
    found = join_chords([(link,) for link in links], lambda one, other: True)
    assert [len(group) for group in found] == expected


def test_chords_built_otherwise_are_no_arc() -> None:
    assert sizes(corners((10, 10, 10)), alike=False) == [1, 1, 1, 1]


def test_a_straight_wall_before_chords_is_none_of_them() -> None:
    """Its far end lies off the circle: 20 m before chords of 2 m that turn by 10 degrees, radius 11.5 m."""
    assert sizes([(-20.0, 0.0), *corners((10, 10, 10))[1:]]) == [1, 3]


def test_more_than_half_a_circle_is_one_arc_and_a_whole_one_none() -> None:
    assert sizes(corners((15,) * 20)) == [21]
    assert max(sizes(corners((15,) * 24))) < 25


def test_arc_is_as_long_as_its_chords() -> None:
    """Chords of 2 m that turn by 15 degrees: radius 1 / sin(7.5 deg), seen from the middle by 5 x 15 degrees."""
    links = [link for group in groups(corners((15,) * 4)) for link in group]
    arc = arc_of_chords(links)
    assert arc is not None
    assert arc.length == pytest.approx(10.0, rel=1e-12)
    assert abs(arc.sweep) == pytest.approx(math.radians(75), rel=1e-9)
    assert arc.radius == pytest.approx(1 / math.sin(math.radians(7.5)), rel=0.0029)


def test_chords_run_in_the_direction_of_their_arc() -> None:
    """Five sides of 2 m that turn by 10 degrees are chords of a circle of 1 / sin 5 m: its tangent at the first corner
    lies 5 degrees behind the first side, at the end of the third 25 before it. A side alone keeps its own."""
    points = corners((10, 10, 10, 10))
    chain = Chain(tuple(link for (link,) in groups(points)), closed=False)
    for station, degrees in ((0.0, -5.0), (6.0, 25.0), (10.0, 45.0)):
        x, y = direction_at(chain, station)
        assert math.degrees(math.atan2(y, x)) == pytest.approx(degrees, abs=0.1)
    alone = Chain(chain.links[:1], closed=False)
    assert direction_at(alone, 0.0) == pytest.approx((1.0, 0.0))
    bent = Chain(tuple(link for (link,) in groups(corners((40, 40)))), closed=False)
    assert direction_at(bent, 0.0) == pytest.approx((1.0, 0.0))


def test_chords_turn_all_along_as_their_arc_does() -> None:
    """Six sides of 2 m that turn by 10 degrees after a straight wall that their arc leaves as its tangent: one turn of
    60 degrees, and none where they meet the wall, though the first side turns by 5."""
    points = corners((10, 10, 10, 10, 10))
    straight = (-6 * math.cos(math.radians(5)), 6 * math.sin(math.radians(5)))
    chain = Chain(tuple(link for (link,) in groups([straight, *points])), closed=False)
    (turn,) = [one for one in turns_of(chain) if abs(one.angle) > math.radians(0.1)]
    assert (turn.start, turn.end) == pytest.approx((6.0, 18.0))
    assert math.degrees(turn.angle) == pytest.approx(60.0, abs=0.2)
    bent = Chain(tuple(link for (link,) in groups(corners((40, 40)))), closed=False)
    assert [round(math.degrees(one.angle)) for one in turns_of(bent)] == [40, 40]
