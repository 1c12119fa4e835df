"""Walls under loads square to them: bending, tension, and tipping against independent limit analysis."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from compliance.facts.mechanics.anchorage import (
    depth_to_hold_down,
    force_at_top,
    force_per_anchor,
    greatest_spacing,
    net_uplift,
)
from compliance.facts.mechanics.lateral.out_of_plane import (
    allowable_tension,
    cantilever_moment,
    flexural_tension,
    greatest_moment,
)
from compliance.facts.mechanics.lateral.rocking import (
    held_top_capacity,
    overturning_moment,
    pivot_inset,
    restoring_moment,
    stability_factor,
)
from compliance.facts.mechanics.spans import support_moments, uniform_moment
from tests.tries import tries

GRAVITY = 9.80665


@given(st.floats(0, 5000), st.floats(1, 5), st.floats(0, 30_000), st.floats(0, 0.3))
def test_greatest_moment_is_never_under_the_one_at_mid_height(w: float, high: float, load: float, off: float) -> None:
    most = greatest_moment(w, high, load, off)
    assert most >= (w * high**2 / 8 + load * off / 2) * (1 - 1e-9)
    along = [load * off * x / high + w * x * (high - x) / 2 for x in np.linspace(0, high, 2001)]
    assert most == pytest.approx(max(along), rel=1e-5, abs=1e-6)


def test_moment_on_top_may_be_the_greatest() -> None:
    assert greatest_moment(10.0, 2.0, 10_000.0, 0.1) == 1000
    assert "on top" in greatest_moment(10.0, 2.0, 10_000.0, 0.1).step().says


def test_where_nothing_overturns_the_least_that_restores_holds() -> None:
    assert (stability_factor(0.5, 0.0), stability_factor(0.0, 0.0), stability_factor(-1.0, 0.0)) == (math.inf, 0.0, 0.0)


def test_a_load_far_off_the_middle_but_within_the_edges_still_holds_a_wall() -> None:
    """2 × 0.4 × (√(20 000 + 5000) + √(5000 × (0.5 − 0.45)))² / 2², the load 0.18 m off the middle of 0.4 m."""
    expected = 2 * 0.4 * (math.sqrt(25_000) + math.sqrt(5000 * 0.05)) ** 2 / 4
    assert held_top_capacity(
        20_000.0, top_load=5000.0, top_offset=0.18, height=2.0, thickness=0.4, inset=0.0
    ) == pytest.approx(expected)


def test_the_greatest_moment_lies_in_the_height_once_the_wind_is_strong_enough() -> None:
    """w L²/8 + m/2 + m²/(2 w L²) where w L² is more than twice m: 0.3125 + 0.5 + 0.2 of m at two and a half."""
    assert greatest_moment(2.5, 1.0, 1.0, 1.0) == pytest.approx(1.0125, rel=1e-12)
    assert greatest_moment(2.0, 1.0, 1.0, 1.0) == 1.0


def test_a_wall_that_nothing_bends() -> None:
    assert greatest_moment(0.0, 2.7, 0.0, 0.1) == 0.0
    assert greatest_moment(0.0, 2.7, 6000.0, 0.0) == 0.0


def test_offsets_to_either_side_are_alike() -> None:
    assert greatest_moment(900.0, 2.7, 6000.0, -0.1) == greatest_moment(900.0, 2.7, 6000.0, 0.1)
    one, other = (greatest_moment(900.0, 2.7, 6000.0, off).step() for off in (-0.1, 0.1))
    assert one == other


def test_ways_to_span() -> None:
    assert uniform_moment(1000.0, 4.0, 8) == 2000
    assert cantilever_moment(1000.0, 2.0, 300.0) == pytest.approx(2600)
    with pytest.raises(ValueError, match="divisor"):
        uniform_moment(1000.0, 4.0, 0)


def test_tension_is_the_fibre_stress_of_a_metre_of_wall() -> None:
    """M/S - N/A (statics): 1500 / (0.4² / 6) less 12,000 / 0.4 is 26,250 Pa."""
    assert flexural_tension(-1500.0, 12_000.0, 0.4) == pytest.approx(26_250)
    assert flexural_tension(0.0, 12_000.0, 0.4) < 0
    assert allowable_tension(345e3, 3.0) == pytest.approx(115e3)


def test_free_wall_tips_where_its_resultant_reaches_the_edge() -> None:
    """A free wall of thickness t, height h under even load: w = γ t²/h (statics)."""
    weight, thickness, height = 1760 * GRAVITY * 0.4 * 2.0, 0.4, 2.0
    tips = 1760 * GRAVITY * thickness**2 / height
    assert stability_factor(
        restoring_moment(weight, 0.0, 0.0, thickness, 0.0), overturning_moment(tips, height, 0.0)
    ) == pytest.approx(1.0)
    assert restoring_moment(weight, 5000.0, 0.25, thickness, 0.0) == pytest.approx(weight * 0.2 - 250)
    assert pivot_inset(20_000.0, 400e3) == pytest.approx(0.025)


def test_factor_against_tipping_at_its_ends() -> None:
    assert math.isinf(stability_factor(10.0, 0.0))
    assert stability_factor(0.0, 0.0) == 0.0
    assert stability_factor(-5.0, 10.0) == 0.0
    assert stability_factor(10.0, 0.0).step().result.value == math.inf


def _by_thrust_line(weight: float, top: float, off: float, height: float, wide: float) -> float:
    """Greatest even load for which a line of thrust stays between the edges (static theorem), by linear programming.

    Unknown: the load and the push of the top support. At depth y the resultant W y/h + P must pass within wide/2
    of the middle: |P e + H y - w y²/2| <= (P + W y/h) wide/2.
    """
    depth = np.linspace(0.0, height, 1501)[1:]
    load = top + weight * depth / height
    rows = np.column_stack([-(depth**2) / 2, depth])
    room = load * wide / 2
    for_both = np.concatenate([rows, -rows])
    limits = np.concatenate([room - top * off, room + top * off])
    return -float(linprog([-1.0, 0.0], A_ub=for_both, b_ub=limits, bounds=[(0, None), (None, None)]).fun)


@pytest.mark.parametrize(
    ("weight", "top", "off", "height", "thickness", "inset"),
    [
        (20_000.0, 0.0, 0.0, 2.7, 0.4, 0.0),
        (20_000.0, 5000.0, 0.0, 2.7, 0.4, 0.0),
        (20_000.0, 20_000.0, 0.05, 2.4, 0.3, 0.01),
        (8000.0, 40_000.0, 0.1, 3.0, 0.45, 0.02),
    ],
)
def test_folding_wall_against_the_line_of_thrust(
    weight: float, top: float, off: float, height: float, thickness: float, inset: float
) -> None:
    """Virtual work gives an upper bound, the line of thrust a lower one: where they meet the load is exact."""
    found = held_top_capacity(weight, top_load=top, top_offset=off, height=height, thickness=thickness, inset=inset)
    # The load's offset that hurts is towards the face the wall bows to.
    statically = min(
        _by_thrust_line(weight, top=top, off=way * off, height=height, wide=thickness - 2 * inset) for way in (-1, 1)
    )
    assert found == pytest.approx(statically, rel=2e-3)


def test_fold_at_mid_height_would_promise_too_much() -> None:
    """The common picture of a fold at mid-height, 4 t (W + 1.5 P)/h², is twice too high with no load on top."""
    assert held_top_capacity(
        20_000.0, top_load=0.0, top_offset=0.0, height=2.7, thickness=0.4, inset=0.0
    ) == pytest.approx(4 * 0.4 * 20_000 / 2.7**2 / 2)


@settings(max_examples=tries(200))
@given(st.floats(100, 60_000), st.floats(0, 60_000), st.floats(0, 0.3), st.floats(1.5, 5), st.floats(0.2, 0.8))
def test_fold_is_the_least_over_all_heights(weight: float, top: float, off: float, high: float, thick: float) -> None:
    found = held_top_capacity(weight, top_load=top, top_offset=off, height=high, thickness=thick, inset=0.0)
    if off >= thick / 2 and top:
        assert found == 0.0
        return
    for share in (0.3, 0.5, 0.7, 0.9, 0.99):
        lift = weight / share + top / share + top * (0.5 - off / thick) / (1 - share)
        assert found <= max(2 * thick / high**2 * lift, 0.0) * (1 + 1e-9)
    assert (
        held_top_capacity(weight, top_load=max(top, 1.0), top_offset=thick / 2, height=high, thickness=thick, inset=0.0)
        == 0.0
    )


def test_a_wall_between_its_edges_that_has_no_width_left_folds_at_once() -> None:
    """2 T W/h² with nothing on top: 2 × 0.4 × 20 000/4 = 4 kPa, wherever a load of nothing would stand."""
    assert held_top_capacity(20_000.0, top_load=0.0, top_offset=0.0, height=2.0, thickness=0.5, inset=0.25) == 0.0
    assert held_top_capacity(20_000.0, top_load=5000.0, top_offset=0.0, height=2.0, thickness=0.5, inset=0.25) == 0.0
    assert held_top_capacity(
        20_000.0, top_load=0.0, top_offset=0.3, height=2.0, thickness=0.4, inset=0.0
    ) == pytest.approx(4000)
    holds, folds = (
        held_top_capacity(20_000.0, top_load=5000.0, top_offset=off, height=2.0, thickness=0.4, inset=0.0).step()
        for off in (0.05, 0.2)
    )
    assert holds.says == "Load at which it starts to fold" and holds.result.value
    assert folds.says.startswith("Nothing holds it") and folds.result.value == 0


def test_force_on_the_top_support() -> None:
    assert force_at_top(1000.0, 2.0, 0.0) == pytest.approx(1000)
    assert force_at_top(1000.0, 2.0, 1.0) == pytest.approx(2250)


def test_anchors() -> None:
    assert force_per_anchor(4000.0, 1.2) == pytest.approx(4800)
    assert greatest_spacing(4000.0, 6000.0) == pytest.approx(1.5)
    assert net_uplift(1500.0, 700.0, 0.6, 2.0) == pytest.approx(2160)
    assert net_uplift(400.0, 700.0, 0.6, 2.0) == 0.0
    assert depth_to_hold_down(0.6 * 1760 * GRAVITY * 0.4 * 0.9, 0.4, 1760.0, 0.6) == pytest.approx(0.9)


def test_two_equal_spans() -> None:
    """w L²/8 over the middle support (handbook form of any beam table, common practice)."""
    moments = support_moments([4.0, 4.0], [1000.0, 1000.0])
    assert moments == pytest.approx((0.0, 2000.0, 0.0))
    with pytest.raises(ValueError, match="one load for each span"):
        support_moments([4.0], [])
