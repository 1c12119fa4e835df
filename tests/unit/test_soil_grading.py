"""Laboratory grading on plain synthetic numbers."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.facts.soil.fractions import GrainSizes, SoilError, SoilShares
from compliance.facts.soil.grading import (
    ChosenShares,
    GradingPoint,
    chosen_shares,
    finer_than,
    graded_shares,
    ordered_points,
    without,
)
from compliance.facts.soil.jar_test import JarResult

MM = 1e-3
USDA = GrainSizes("usda", clay=0.002 * MM, silt=0.05 * MM, sand=2 * MM, fine_sand=0.25 * MM)
POINTS = [
    GradingPoint(20 * MM, 1.0),
    GradingPoint(2 * MM, 0.8),
    GradingPoint(0.5 * MM, 0.6),
    GradingPoint(0.25 * MM, 0.5),
    GradingPoint(0.075 * MM, 0.4),
    GradingPoint(0.02 * MM, 0.3),
    GradingPoint(0.004 * MM, 0.2),
    GradingPoint(0.001 * MM, 0.1),
]
JAR = JarResult(SoilShares(0.3, silt=0.2, sand=0.5, sizes="usda", basis="settled depth"), (), ())


@st.composite
def gradings(draw: st.DrawFn) -> list[GradingPoint]:
    sizes = draw(st.lists(st.integers(1, 10_000), min_size=2, max_size=8, unique=True))
    finer = sorted(draw(st.lists(st.floats(0, 1), min_size=len(sizes), max_size=len(sizes))))
    return [GradingPoint(size * 1e-6, share) for size, share in zip(sorted(sizes), finer, strict=True)]


def test_shares_by_the_straight_line_over_the_logarithm() -> None:
    """Worked by hand: 0.002 mm lies half way from 0.001 to 0.004 mm on a logarithmic scale, so 15 % are finer."""
    graded = graded_shares(POINTS, USDA)
    assert graded.shares is not None and not graded.reasons
    silt_limit = 0.3 + 0.1 * math.log(0.05 / 0.02) / math.log(0.075 / 0.02)
    shares = graded.shares
    assert shares.clay == pytest.approx(0.15 / 0.8)
    assert shares.silt == pytest.approx((silt_limit - 0.15) / 0.8)
    assert shares.sand == pytest.approx((0.8 - silt_limit) / 0.8)
    assert shares.coarse_sand == pytest.approx(0.3 / 0.8)
    assert shares.gravel == pytest.approx(0.2)
    assert shares.basis == "dry weight"


def test_nothing_is_read_beyond_the_measured_sizes() -> None:
    coarse_only = [point for point in POINTS if point.size > 0.07 * MM]
    graded = graded_shares(coarse_only, USDA)
    assert graded.shares is None
    assert len(graded.reasons) == 2 and "0.002 mm" in graded.reasons[0] and "smallest" in graded.reasons[0]
    assert set(graded.finer) == {0.25 * MM, 2 * MM}
    fine_only = [point for point in POINTS if point.size < 1 * MM]
    (reason,) = graded_shares(fine_only, USDA).reasons
    assert "largest" in reason and "add what is finer than the sieve No. 10" in reason
    assert "than 0.002 mm, by hydrometer" in graded.reasons[0]


def test_a_size_that_everything_passes_holds_for_all_above() -> None:
    points = ordered_points([GradingPoint(1 * MM, 1.0), GradingPoint(0.001 * MM, 0.1)])
    assert finer_than(points, 2 * MM) == 1.0
    assert finer_than(points, 0.0005 * MM) is None
    graded = graded_shares(points, USDA)
    assert graded.shares is not None and graded.shares.gravel == 0


def test_all_gravel_has_no_fine_earth() -> None:
    graded = graded_shares([GradingPoint(2 * MM, 0.0), GradingPoint(20 * MM, 1.0)], USDA)
    assert graded.shares is None and graded.reasons == ("nothing is finer than 2 mm",)


@pytest.mark.parametrize(
    "points",
    [
        [],
        [GradingPoint(1 * MM, 0.5), GradingPoint(1 * MM, 0.6)],
        [GradingPoint(1 * MM, 0.5), GradingPoint(2 * MM, 0.4)],
        [GradingPoint(1 * MM, 1.1)],
        [GradingPoint(0.0, 0.1)],
        [GradingPoint(1 * MM, float("nan"))],
    ],
)
def test_points_that_contradict_each_other_are_refused(points: list[GradingPoint]) -> None:
    with pytest.raises(SoilError):
        ordered_points(points)


@settings(deadline=None)
@given(gradings(), st.floats(1e-7, 2e-2), st.floats(1e-7, 2e-2))
def test_finer_rises_with_size_and_keeps_to_the_measured(grading: list[GradingPoint], one: float, two: float) -> None:
    points = ordered_points(reversed(grading))
    low, high = (finer_than(points, size) for size in sorted((one, two)))
    assert low is None or high is None or low <= high
    for point in points:
        assert finer_than(points, point.size) == point.finer
    for below, above in pairwise(points):
        between = finer_than(points, math.sqrt(below.size * above.size))
        assert between == pytest.approx((below.finer + above.finer) / 2)


@settings(deadline=None)
@given(gradings())
def test_shares_sum_to_one(grading: list[GradingPoint]) -> None:
    graded = graded_shares(grading, USDA)
    if graded.shares is not None:
        shares = graded.shares
        assert shares.clay + shares.silt + shares.sand == pytest.approx(1)
        assert sum(shares.fractions().values()) == pytest.approx(1)
    else:
        assert graded.reasons


def test_the_laboratory_outranks_the_jar() -> None:
    graded = graded_shares(POINTS, USDA)
    chosen = chosen_shares(graded, JAR)
    assert chosen.shares == graded.shares
    (remark,) = chosen.remarks
    assert remark.code == "grading-outranks-jar" and "clay 30 % against 18.8 %" in remark.says


def test_the_jar_stands_in_for_an_incomplete_grading_and_says_so() -> None:
    chosen = chosen_shares(graded_shares(POINTS[:3], USDA), JAR)
    assert chosen.shares == JAR.shares
    assert [remark.code for remark in chosen.remarks] == ["grading-incomplete"]
    assert JAR.shares.fractions() == {"clay": 0.3, "silt": 0.2, "sand": 0.5}
    assert chosen_shares(None, None).shares is None


def test_a_grading_alone_needs_no_remark() -> None:
    graded = graded_shares(POINTS, USDA)
    assert chosen_shares(graded, None) == ChosenShares(graded.shares, graded.steps, ())


def test_shares_are_checked() -> None:
    with pytest.raises(SoilError, match="add up"):
        SoilShares(0.3, silt=0.3, sand=0.3, sizes="usda", basis="dry weight")
    with pytest.raises(SoilError, match="0 to 100"):
        SoilShares(-0.1, silt=0.6, sand=0.5, sizes="usda", basis="dry weight")
    with pytest.raises(SoilError, match="rise"):
        GrainSizes("upside down", 0.05 * MM, 0.002 * MM, 2 * MM)


@settings(deadline=None)
@given(st.dictionaries(st.sampled_from("abcdef"), st.floats(0.01, 100), min_size=2))
def test_leaving_a_part_out_keeps_the_ratios(weights: dict[str, float]) -> None:
    dropped, *rest = sorted(weights)
    left = without(weights, [dropped])
    assert sum(left.values()) == pytest.approx(1)
    for one, other in pairwise(rest):
        assert left[one] * weights[other] == pytest.approx(left[other] * weights[one])
    with pytest.raises(SoilError, match="no part called"):
        without(weights, ["z"])
    with pytest.raises(SoilError, match="weigh"):
        without(weights, list(weights))
