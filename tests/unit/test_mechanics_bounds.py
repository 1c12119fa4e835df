"""Openings and forces exactly where they touch, end or leave their wall."""

from __future__ import annotations

import math

import pytest

from compliance.facts.mechanics.beams import Point
from compliance.facts.mechanics.lateral.piers import share_loads
from compliance.facts.mechanics.wall_weight import Elevation, Opening, Profile

PLAIN = Profile(2.5, 0.4, 0.4)


def test_how_far_an_opening_may_leave_its_wall_or_reach_over_another() -> None:
    """One part in 1e12 past the wall, 1e-8 over one another, and nothing more."""
    square = Profile(1.0, 0.4, 0.4)
    most = 1 + 1e-12
    over, thin, thicker = math.nextafter(most, 2), 1e-8, math.nextafter(1e-8, 1)
    door = Opening(0.0, 0.5, 0.0, 0.5)
    for may in ((Opening(0.0, most, 0.0, 0.5),), (Opening(0.0, 0.5, 0.0, most),), (door, Opening(0.0, thin, 0.0, 0.5)),
                (door, Opening(0.0, 0.5, 0.0, thin))):  # fmt: skip
        Elevation(1.0, square, 1800.0, may)
    for not_so in ((Opening(0.0, over, 0.0, 0.5),), (Opening(0.0, 0.5, 0.0, over),),
                   (door, Opening(0.0, thicker, 0.0, 0.5)), (door, Opening(0.0, 0.5, 0.0, thicker))):  # fmt: skip
        with pytest.raises(ValueError, match="opening"):
            Elevation(1.0, square, 1800.0, not_so)


def test_how_far_openings_may_reach_over_one_another_goes_by_the_wall() -> None:
    """A hundred-millionth of its length and of its height: 5e-8 m is less of 10 m, and more of 1 m."""
    high = Profile(10.0, 0.4, 0.4)
    door, beside = Opening(0.0, 0.5, 0.0, 0.5), Opening(0.5 - 5e-8, 0.25, 0.0, 0.5)
    above = Opening(0.0, 0.5, 0.5 - 5e-8, 0.25)
    Elevation(10.0, Profile(1.0, 0.4, 0.4), 1800.0, (door, beside))
    Elevation(1.0, high, 1800.0, (door, above))
    for long, profile, other in ((1.0, high, beside), (10.0, Profile(1.0, 0.4, 0.4), above)):
        with pytest.raises(ValueError, match="opening"):
            Elevation(long, profile, 1800.0, (door, other))


def test_a_piece_of_no_length_or_all_opening_weighs_nothing() -> None:
    wall = Elevation(6.0, PLAIN, 1800.0, (Opening(1.0, 1.0, 0.0, 2.5),))
    assert wall.weight(3.0, 3.0, 0.0, 2.5) == 0.0
    assert wall.weight(1.0, 2.0, 0.0, 2.5) == 0.0


def test_how_near_openings_touch_each_other_or_the_end_of_the_wall() -> None:
    """A hundred-millionth of the wall's length apart they touch, a last digit more and they do not."""
    touches = 0.25 + 1e-8
    for left, piers in ((touches, 2), (math.nextafter(touches, 1), 3)):
        wall = Elevation(1.0, PLAIN, 1000.0, (Opening(0.0, 0.25, 0.5, 1.0), Opening(left, 0.25, 0.5, 1.0)))
        assert len(share_loads(wall, 0.0).piers) == piers
    ends = 1 - 1e-8
    for right, narrow in ((ends, 0.0), (math.nextafter(ends, 0), 1 - math.nextafter(ends, 0))):
        wall = Elevation(1.0, PLAIN, 1000.0, (Opening(0.0, right, 0.5, 1.0),))
        assert share_loads(wall, 0.0).piers[-1].width == narrow


def test_how_near_openings_touch_goes_by_the_length_of_the_wall() -> None:
    """Half of a ten-millionth of a metre apart: a two-hundred-millionth of a wall of 10 m, far more of one of 1 m."""
    for length, piers in ((10.0, 2), (1.0, 3)):
        near = (Opening(0.0, 0.25, 0.5, 1.0), Opening(0.25 + 5e-8, 0.25, 0.5, 1.0))
        assert len(share_loads(Elevation(length, PLAIN, 1000.0, near), 0.0).piers) == piers


def test_a_small_opening_over_a_wide_one_leaves_the_piers_as_they_are() -> None:
    wall = Elevation(10.0, PLAIN, 1000.0, (Opening(1.0, 4.0, 0.0, 1.0), Opening(2.0, 1.0, 1.2, 0.5)))
    assert [(one.left, one.right) for one in share_loads(wall, 0.0).piers] == [(0.0, 1.0), (5.0, 10.0)]


def test_a_force_off_the_wall() -> None:
    wall, over = Elevation(1.0, PLAIN, 1000.0), 1 + 1e-12
    for at in (0.0, 1.0, over):
        assert share_loads(wall, 0.0, [Point(at, 10.0)]).piers[0].points == 10
    for at in (-1e-9, math.nextafter(over, 2)):
        with pytest.raises(ValueError, match="off the wall"):
            share_loads(wall, 0.0, [Point(at, 10.0)])


def test_a_force_over_an_opening_that_reaches_an_end_goes_by_its_distance_too() -> None:
    """At a quarter of an opening 1 m wide beside the right end: a quarter to the end, where nothing stands."""
    wall = Elevation(4.0, PLAIN, 1000.0, (Opening(3.0, 1.0, 0.0, 2.0),))
    for at, shares in ((3.0, (100.0, 0.0)), (3.25, (75.0, 25.0)), (4.0, (0.0, 100.0))):
        assert tuple(pier.points for pier in share_loads(wall, 0.0, [Point(at, 100.0)]).piers) == shares
