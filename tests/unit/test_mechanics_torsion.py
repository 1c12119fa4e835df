"""How little keeps a building from turning, and the line of one wall's share. Worked by hand from statics."""

from __future__ import annotations

import math

import pytest

from compliance.facts.mechanics.lateral.torsion import Bracing, Panel, force_in_panel

FORCE = 100.0


@pytest.mark.parametrize(("share", "braces"), [(0.97, False), (1.03, True)])
def test_walls_all_but_in_line_brace_one_direction(share: float, braces: bool) -> None:
    """Of two walls of stiffness 1 at a small angle the determinant is its sine squared, of the whole squared, 4."""
    walls = [Panel(0, 0, 0.0, 1.0), Panel(2, 5, math.asin(math.sqrt(share * 4e-9)), 1.0)]
    if braces:
        assert Bracing(walls).whole == 2.0
    else:
        with pytest.raises(ValueError, match="one direction only"):
            Bracing(walls)


def _narrow(apart: float) -> Bracing:
    """Two walls along x so far on either side of (10, 20), and one along y on the line through it, 15 m away.

    The sum of stiffness × lever² is 2 × apart²: the third wall has no lever.
    """
    return Bracing([Panel(10, 20 - apart, 0.0, 1.0), Panel(10, 20 + apart, 0.0, 1.0), Panel(10, 5, math.pi / 2, 1.0)])


@pytest.mark.parametrize(("share", "holds"), [(0.97, False), (1.03, True)])
def test_walls_that_all_but_meet_in_one_point_cannot_keep_a_building_from_turning(share: float, holds: bool) -> None:
    """A thousand-millionth of the whole stiffness, 3, times the square of the way to the farthest wall, 3 + 19 m.

    Pushed 4 m beyond the centre, the wall on that side takes more, the other less: 400 N·m over 2 × apart.
    """
    apart = share * 22 * math.sqrt(1.5e-9)
    if holds:
        first, second, third = _narrow(apart).shares(FORCE, 0.0, 13.0, 24.0)
        assert first.direct == second.direct == pytest.approx(50)
        assert second.turning == pytest.approx(4 * FORCE / (2 * apart), rel=1e-6)
        assert first.turning == pytest.approx(-second.turning, rel=1e-6)
        assert third.force == pytest.approx(0, abs=1e-6)
    else:
        with pytest.raises(ValueError, match="meet in one point"):
            _narrow(apart).shares(FORCE, 0.0, 13.0, 24.0)


def test_a_force_that_turns_nothing_is_taken_without_turning() -> None:
    shares = _narrow(5e-4).shares(FORCE, 0.0, 13.0, 20.0)
    assert [one.turning for one in shares] == [0.0, 0.0, 0.0]
    assert [one.force for one in shares] == pytest.approx([50, 50, 0], abs=1e-9)


def test_a_force_where_two_walls_meet_is_taken_by_them() -> None:
    cross = Bracing([Panel(0, 0, 0.0, 1.0), Panel(0, 0, math.pi / 2, 1.0)])
    assert [one.force for one in cross.shares(FORCE, 0.0, 0.0, 0.0)] == pytest.approx([FORCE, 0], abs=1e-9)


@pytest.mark.parametrize(("share", "turns"), [(0.97, False), (1.03, True)])
@pytest.mark.parametrize("way", [1, -1])
def test_the_least_that_counts_as_turning(share: float, turns: bool, way: int) -> None:
    """A lever of a thousand-millionth of the way to the farthest wall, 10 m; of walls that meet at the origin."""
    cross = Bracing([Panel(-7, 0, 0.0, 1.0), Panel(0, 0, math.pi / 2, 1.0)])
    if turns:
        with pytest.raises(ValueError, match="meet in one point"):
            cross.shares(FORCE, 0.0, 3.0, way * share * 1e-8)
    else:
        assert cross.shares(FORCE, 0.0, 3.0, way * share * 1e-8)[0].force == pytest.approx(FORCE)


def test_the_line_of_a_share_gives_the_force() -> None:
    """Walls along x at 0 and 6 m, 3 to 1 stiff: the centre lies at 1.5 m. Two along y at 0 and 8 m, 1 each, at 4 m.

    The force of 100 N along x at y = 3.5 m turns with -200 N·m. Stiffness × lever²: 3 × 1.5² + 4.5² + 2 × 4² = 59,
    over the whole stiffness of 6. The second wall, a sixth of it, has a lever of -4.5 m: 25 + 200 × 4.5 / 59 N.
    """
    walls = [Panel(3, 0, 0.0, 3.0), Panel(3, 6, 0.0, 1.0), Panel(0, 3, math.pi / 2, 1.0), Panel(8, 3, math.pi / 2, 1.0)]
    bracing = Bracing(walls)
    assert bracing.centre == pytest.approx((4.0, 1.5))
    moment = bracing.moment(FORCE, 0.0, 2.0, 3.5)
    step = force_in_panel(bracing, 1, bracing.shares(FORCE, 0.0, 2.0, 3.5)[1], moment).step()
    assert step.formula == "F_d + T × k × r / J"
    assert {one.symbol: one.value for one in step.given} == pytest.approx(
        {"F_d": 25.0, "T": -200.0, "k": 1 / 6, "r": -4.5, "J": 59 / 6}
    )
    assert step.result.value == pytest.approx(25 + 200 * 4.5 / 59)
