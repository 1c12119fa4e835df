"""Shares of bracing walls against an independent solution: the plan's 3 × 3 stiffness matrix solved by numpy."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.facts.mechanics.lateral.torsion import Bracing, Panel, centre_of_mass
from compliance.record import replace
from tests.tries import tries


def _solved(panels: list[Panel], force: float, direction: float, x: float, y: float) -> np.ndarray:
    """Each panel's force from the displacement of the whole plan (two shifts and a turn about the origin)."""
    rows = np.array(
        [[math.cos(p.direction), math.sin(p.direction), p.x * math.sin(p.direction) - p.y * math.cos(p.direction)]
         for p in panels]
    )  # fmt: skip
    stiffness = np.array([p.stiffness for p in panels])
    along = np.array([force * math.cos(direction), force * math.sin(direction)])
    loads = np.array([*along, x * along[1] - y * along[0]])
    moved = np.linalg.solve(rows.T @ (stiffness[:, None] * rows), loads)
    forces: np.ndarray = stiffness * (rows @ moved)
    return forces


HOUSE = [
    Panel(3.0, 0.0, 0.0, 0.30),
    Panel(2.0, 6.0, 0.0, 0.12),
    Panel(0.0, 3.0, math.pi / 2, 0.25),
    Panel(8.0, 2.0, math.pi / 2, 0.10),
    Panel(7.0, 5.0, math.radians(70), 0.07),
]
_LENGTH = st.floats(-20, 20)
_PANELS = st.lists(
    st.builds(Panel, _LENGTH, _LENGTH, st.floats(-math.pi, math.pi), st.floats(0.05, 5.0)), min_size=3, max_size=8
)


def test_a_house_with_one_slanting_wall() -> None:
    bracing = Bracing(HOUSE)
    found = [share.force for share in bracing.shares(40_000.0, math.radians(25), 4.2, 2.9)]
    assert found == pytest.approx(_solved(HOUSE, force=40_000.0, direction=math.radians(25), x=4.2, y=2.9), rel=1e-9)


def test_a_force_at_the_centre_of_stiffness_turns_nothing() -> None:
    bracing = Bracing(HOUSE)
    for share in bracing.shares(40_000.0, 1.1, *bracing.centre):
        assert share.turning == pytest.approx(0.0, abs=1e-8)


@settings(max_examples=tries(200), deadline=None)
@given(_PANELS, st.floats(-1e5, 1e5), st.floats(-math.pi, math.pi), _LENGTH, _LENGTH)
def test_any_plan(panels: list[Panel], force: float, direction: float, x: float, y: float) -> None:
    # Square to the axes and well apart, two walls keep the plan from being all but unbraced, where both solutions
    # lose digits alike.
    plan = [*panels, Panel(-20, -20, 0.0, 1.0), Panel(20, 15, math.pi / 2, 1.0)]
    shares = Bracing(plan).shares(force, direction, x, y)
    forces = [share.force for share in shares]
    assert forces == pytest.approx(
        _solved(plan, force=force, direction=direction, x=x, y=y), rel=1e-6, abs=1e-6 * (1 + abs(force))
    )
    shifted = math.fsum(share.force * math.cos(p.direction) for share, p in zip(shares, plan, strict=True))
    assert shifted == pytest.approx(force * math.cos(direction), abs=1e-7 * (1 + abs(force)))
    across = math.fsum(share.force * math.sin(p.direction) for share, p in zip(shares, plan, strict=True))
    assert across == pytest.approx(force * math.sin(direction), abs=1e-7 * (1 + abs(force)))


@pytest.mark.parametrize("times", [1e-12, 1e-3, 1e6, 1e12])
def test_the_unit_of_stiffness_is_any(times: float) -> None:
    """Shares, the centre, and whether the walls brace both ways: none depends on the unit."""
    plain, other = (Bracing([replace(one, stiffness=one.stiffness * k) for one in HOUSE]) for k in (1.0, times))
    assert other.centre == pytest.approx(plain.centre, rel=1e-9)
    forces = [[share.force for share in each.shares(40_000.0, 0.4, 4.2, 2.9)] for each in (plain, other)]
    assert forces[1] == pytest.approx(forces[0], rel=1e-9)
    with pytest.raises(ValueError, match="one direction only"):
        Bracing([Panel(0, 0, 0.3, times), Panel(2, 5, 0.3, 2 * times)])


@pytest.mark.parametrize("degrees", [0, 25, 90, 140])
def test_worst_is_the_worse_of_both_shifts(degrees: float) -> None:
    """The force moved by 0.3 m square to itself, either way, each solved apart; no less than with no turning at all."""
    bracing, direction = Bracing(HOUSE), math.radians(degrees)
    aside = (-0.3 * math.sin(direction), 0.3 * math.cos(direction))
    solved = [
        np.abs(_solved(HOUSE, force=40_000.0, direction=direction, x=x, y=y))
        for x, y in ((4.2 + aside[0], 2.9 + aside[1]), (4.2 - aside[0], 2.9 - aside[1]), bracing.centre)
    ]
    worst = bracing.worst(40_000.0, direction, 4.2, 2.9, off=0.3)
    assert list(worst) == pytest.approx(np.max(solved, axis=0).tolist(), rel=1e-9)


def test_symmetric_house_shares_by_stiffness_alone() -> None:
    walls = [Panel(0, 0, 0, 2.0), Panel(0, 6, 0, 2.0), Panel(-4, 3, math.pi / 2, 1.0), Panel(4, 3, math.pi / 2, 3.0)]
    shares = Bracing(walls).shares(9000.0, 0.0, 7.0, 3.0)
    assert [share.force for share in shares] == pytest.approx([4500, 4500, 0, 0], abs=1e-9)


def test_worst_never_takes_anything_off_for_twisting() -> None:
    bracing = Bracing(HOUSE)
    plain = bracing.shares(40_000.0, 0.0, 4.2, 2.9)
    worst = bracing.worst(40_000.0, 0.0, 4.2, 2.9, off=0.05 * 6)
    for share, most in zip(plain, worst, strict=True):
        assert most >= max(abs(share.direct), abs(share.force))


def test_plans_that_do_not_brace() -> None:
    with pytest.raises(ValueError, match="one direction"):
        Bracing([Panel(0, 0, 0.3, 1.0), Panel(0, 5, 0.3, 1.0)])
    with pytest.raises(ValueError, match="one direction"):
        Bracing([])
    cross = Bracing([Panel(0, 0, 0.0, 1.0), Panel(0, 0, math.pi / 2, 1.0)])
    assert [share.force for share in cross.shares(100.0, 0.0, 5.0, 0.0)] == pytest.approx([100, 0], abs=1e-9)
    with pytest.raises(ValueError, match="turning"):
        cross.shares(100.0, 0.0, 0.0, 2.0)


@pytest.mark.parametrize("unit", [1e-6, 1e9])
def test_the_unit_of_stiffness_does_not_matter(unit: float) -> None:
    scaled = [Panel(p.x, p.y, p.direction, p.stiffness * unit) for p in HOUSE]
    found = [share.force for share in Bracing(scaled).shares(40_000.0, 0.4, 4.2, 2.9)]
    assert found == pytest.approx([share.force for share in Bracing(HOUSE).shares(40_000.0, 0.4, 4.2, 2.9)], rel=1e-9)
    cross = Bracing([Panel(0, 0, 0.0, unit), Panel(0, 0, math.pi / 2, unit)])
    with pytest.raises(ValueError, match="turning"):
        cross.shares(100.0, 0.0, 0.0, 2.0)


def test_centre_of_mass() -> None:
    assert centre_of_mass([(100, 0, 0), (300, 4, 2)]) == pytest.approx((3.0, 1.5))
    with pytest.raises(ValueError, match="whole weight"):
        centre_of_mass([])
