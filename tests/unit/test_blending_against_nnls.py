"""Own least squares against scipy.optimize.nnls (Lawson and Hanson) and the conditions of Karush, Kuhn and Tucker."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import nnls  # type: ignore[import-untyped]

from compliance.facts.mixes.blend_target import Component, Material, Target
from compliance.facts.mixes.blending import best_blend, best_buckets, blend_of
from compliance.facts.mixes.least_squares import nearest_blend, nonnegative_least_squares
from tests.tries import tries

FRACTIONS = ("clay", "silt", "fine sand", "coarse sand")


@st.composite
def problems(draw: st.DrawFn) -> tuple[list[list[float]], list[float]]:
    rows, count = draw(st.integers(1, 5)), draw(st.integers(1, 5))
    number = st.integers(-50, 50).map(lambda whole: whole / 16)
    column = st.lists(number, min_size=rows, max_size=rows)
    return draw(st.lists(column, min_size=count, max_size=count)), draw(column)


@st.composite
def soils(draw: st.DrawFn, most: int = 4) -> list[dict[str, float]]:
    found = []
    for _ in range(draw(st.integers(1, most))):
        raw = draw(st.lists(st.integers(0, 20), min_size=4, max_size=4).filter(any))
        found.append({name: part / sum(raw) for name, part in zip(FRACTIONS, raw, strict=True)})
    return found


def target(clay: float = 1, silt: float = 0, fine: float = 1, coarse: float = 2, tolerance: float = 0.05) -> Target:
    asked = {"clay": clay, "silt": silt, "fine sand": fine, "coarse sand": coarse}
    total = math.fsum(asked.values())
    parts = tuple(Component((name,), part / total) for name, part in asked.items() if part)
    return Target("test", components=parts, tolerance=tolerance, lacking={}, source="synthetic")


def materials(shares: Sequence[dict[str, float]]) -> list[Material]:
    return [Material(f"m{place}", held, "settled depth") for place, held in enumerate(shares, start=1)]


@settings(max_examples=tries(300), deadline=None)
@given(problems())
def test_agrees_with_scipy(problem: tuple[list[list[float]], list[float]]) -> None:
    columns, aim = problem
    matrix = np.array(columns).T
    own = np.array([float(weight) for weight in nonnegative_least_squares(columns, aim)])
    theirs, norm = nnls(matrix, np.array(aim))
    assert (own >= 0).all()
    assert np.linalg.norm(matrix @ own - np.array(aim)) == pytest.approx(norm, abs=1e-9)
    assert matrix @ own == pytest.approx(
        matrix @ theirs, abs=1e-7
    )  # the nearest point is unique, the weights may not be
    if np.linalg.matrix_rank(matrix) == len(columns):
        assert own == pytest.approx(theirs, abs=1e-6)


@settings(max_examples=tries(200), deadline=None)
@given(problems())
def test_is_exactly_optimal(problem: tuple[list[list[float]], list[float]]) -> None:
    """No weight below zero, no column that would still help, and none in use that would rather change: exactly."""
    columns, aim = problem
    weights = nonnegative_least_squares(columns, aim)
    left = [
        Fraction(goal) - sum(w * Fraction(column[row]) for w, column in zip(weights, columns, strict=True))
        for row, goal in enumerate(aim)
    ]
    for weight, column in zip(weights, columns, strict=True):
        gain = sum(Fraction(value) * rest for value, rest in zip(column, left, strict=True))
        assert weight >= 0 and gain <= 0 and weight * gain == 0


@settings(max_examples=tries(200), deadline=None)
@given(soils())
def test_blend_agrees_with_scipy_on_the_scaled_problem(shares: list[dict[str, float]]) -> None:
    points = [[held[name] for name in FRACTIONS] for held in shares]
    aim = [0.25, 0.0, 0.25, 0.5]
    weights = nearest_blend(points, aim)
    assert sum(weights) == 1 and all(weight >= 0 for weight in weights)
    matrix = np.vstack([np.array(points).T - np.array(aim)[:, None], np.ones(len(points))])
    theirs, _ = nnls(matrix, np.array([0.0, 0.0, 0.0, 0.0, 1.0]))
    theirs = theirs / theirs.sum()
    own = np.array(points).T @ np.array([float(weight) for weight in weights])
    assert own == pytest.approx(np.array(points).T @ theirs, abs=1e-7)


@settings(max_examples=tries(100), deadline=None)
@given(soils(), st.lists(st.integers(0, 10), min_size=4, max_size=4).filter(any))
def test_no_other_blend_is_nearer(shares: list[dict[str, float]], tries: list[int]) -> None:
    held = materials(shares)
    other = tries[: len(held)]
    best = best_blend(held, target())
    assert math.fsum(best.parts.values()) == pytest.approx(1)
    assert math.fsum(best.shares.values()) == pytest.approx(1)
    if any(other):
        assert best.distance <= blend_of(held, other, target()).distance + 1e-12


@settings(max_examples=tries(100), deadline=None)
@given(soils())
def test_what_is_lacking_helps(shares: list[dict[str, float]]) -> None:
    """With the named fraction added as a material of its own the best blend comes nearer."""
    best = best_blend(materials(shares), target(tolerance=1e-6))
    assert best.reached == (not best.lacking)
    for name in best.lacking:
        pure = {other: float(other == name) for other in FRACTIONS}
        assert best_blend(materials([*shares, pure]), target()).distance < best.distance
        assert name in best.says


@settings(max_examples=tries(60), deadline=None)
@given(soils(most=3), st.integers(1, 6), st.booleans())
def test_buckets_are_the_best_of_all_counts(shares: list[dict[str, float]], most: int, halves: bool) -> None:
    held = materials(shares)
    found = best_buckets(held, target(), most, halves)
    scale = 2 if halves else 1
    counts = [
        [units / scale for units in each]
        for each in product(range(most * scale + 1), repeat=len(held))
        if 0 < sum(each) <= most * scale
    ]
    least = min(blend_of(held, count, target()).distance for count in counts)
    assert found.distance == pytest.approx(least, abs=1e-11)
    assert 0 < sum(found.parts.values()) <= most
    assert all(part * scale == int(part * scale) for part in found.parts.values())
    assert best_buckets(held, target(), most, halves) == found
    assert found.distance >= best_blend(held, target()).distance - 1e-12


def test_a_repeated_material_takes_nothing_from_the_first() -> None:
    soil = {"clay": 0.5, "coarse sand": 0.5}
    weights = nearest_blend([list(soil.values())] * 3, [0.25, 0.75])
    assert [float(weight) for weight in weights] == [1, 0, 0]


def test_uneven_and_empty_problems_are_refused() -> None:
    with pytest.raises(ValueError, match="as many values"):
        nonnegative_least_squares([[1.0], [1.0, 2.0]], [1.0])
    with pytest.raises(ValueError, match="as many values"):
        nearest_blend([[1.0]], [1.0, 2.0])
    with pytest.raises(ValueError, match="at least one"):
        nearest_blend([], [1.0])
