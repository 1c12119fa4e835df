"""What holds for any set of values: order never matters, units never matter, and no limit exceeds what it may."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.facts.specimens.outliers import grubbs
from compliance.facts.specimens.sample import deviation, mean, median, summary
from compliance.facts.specimens.statistics import STATISTICS, govern
from compliance.facts.specimens.tolerance import prediction_factor, prediction_factor_known_scatter, tolerance_factor
from tests.tries import tries

STRENGTH = st.floats(1e4, 1e8)
SIX = st.lists(STRENGTH, min_size=6, max_size=6)
SHARES = st.sampled_from([0.5, 0.75, 0.9, 0.95, 0.99])
PARAMETERS: dict[str, dict[str, float]] = {
    "lowest": {},
    "highest": {},
    "kth-lowest": {"k": 4, "of": 5},
    "mean": {},
    "mean-of-best": {"k": 4, "of": 6},
    "lowest-reduced-by-scatter": {"factor": 1.5},
    "lower-fractile": {"share": 0.95, "confidence": 0.75},
    "lower-fractile-lognormal": {"share": 0.95, "confidence": 0.75},
    "prediction": {"share": 0.95},
    "prediction-lognormal": {"share": 0.95},
    "prediction-known-scatter": {"share": 0.95, "variation": 0.2},
}
NAMES = st.sampled_from(list(STATISTICS))


def _value(values: list[float], statistic: str) -> float:
    governed = govern(values, "stress", statistic, PARAMETERS[statistic])
    assert governed.value is not None
    return governed.value


@settings(deadline=None)
@given(SIX, NAMES, st.randoms(use_true_random=False))
def test_order_never_matters(values: list[float], statistic: str, random: object) -> None:
    shuffled = list(values)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assert govern(shuffled, "stress", statistic, PARAMETERS[statistic]) == govern(
        values, "stress", statistic, PARAMETERS[statistic]
    )


@settings(deadline=None)
@given(SIX, NAMES, st.floats(1e-3, 1e3))
def test_another_unit_gives_the_same_value_in_that_unit(values: list[float], statistic: str, factor: float) -> None:
    scaled = _value([value * factor for value in values], statistic)
    assert abs(scaled - factor * _value(values, statistic)) <= 1e-9 * factor * max(values)


@settings(deadline=None)
@given(SIX)
def test_nothing_leaves_the_range_of_the_values(values: list[float]) -> None:
    for statistic in ("lowest", "highest", "kth-lowest", "mean", "mean-of-best"):
        assert min(values) <= _value(values, statistic) <= max(values)
    in_order = [_value(values, statistic) for statistic in ("lowest", "mean", "mean-of-best", "highest")]
    assert in_order == sorted(in_order)
    assert min(values) <= median(values) <= max(values)


@settings(deadline=None)
@given(SIX)
def test_limits_never_exceed_what_they_start_from(values: list[float]) -> None:
    assert 0.0 <= _value(values, "lowest-reduced-by-scatter") <= min(values)
    for statistic in ("lower-fractile", "prediction", "prediction-known-scatter"):
        assert _value(values, statistic) <= mean(values)
    for statistic in ("lower-fractile-lognormal", "prediction-lognormal"):
        assert 0.0 < _value(values, statistic) <= mean(values) * (1 + 1e-12)


@settings(deadline=None)
@given(STRENGTH, st.sampled_from(["lower-fractile", "prediction", "lowest-reduced-by-scatter", "mean"]))
def test_equal_values_lose_nothing(value: float, statistic: str) -> None:
    assert _value([value] * 6, statistic) == value


@settings(deadline=None)
@given(SIX, st.integers(0, 5), st.floats(0.0, 1.0))
def test_a_weaker_specimen_never_raises_an_order_statistic_or_mean(
    values: list[float], which: int, share: float
) -> None:
    weaker = [value * share if index == which else value for index, value in enumerate(values)]
    for statistic in ("lowest", "kth-lowest", "mean", "mean-of-best"):
        assert _value(weaker, statistic) <= _value(values, statistic)


@settings(deadline=None)
@given(SIX)
def test_a_weaker_lowest_specimen_never_raises_a_limit(values: list[float]) -> None:
    """Lowering the weakest specimen lowers the mean and widens the scatter, so no limit may rise."""
    weakest = values.index(min(values))
    weaker = [value * 0.9 if index == weakest else value for index, value in enumerate(values)]
    for statistic in ("lowest-reduced-by-scatter", "lower-fractile", "prediction"):
        assert _value(weaker, statistic) <= _value(values, statistic) + 1e-9 * max(values)


@settings(max_examples=tries(30), deadline=None)
@given(st.integers(2, 100), SHARES, st.sampled_from([0.5, 0.75, 0.9, 0.95]))
def test_tolerance_factor_falls_with_more_values_and_rises_with_share_and_confidence(
    count: int, share: float, confidence: float
) -> None:
    k = tolerance_factor(count, share, confidence)
    if confidence > 0.5:
        assert tolerance_factor(count + 1, share, confidence) < k
    assert tolerance_factor(count, share + 0.005, confidence) > k
    assert tolerance_factor(count, share, confidence + 0.005) > k


@settings(max_examples=tries(30), deadline=None)
@given(st.integers(2, 100), st.sampled_from([0.75, 0.9, 0.95, 0.99]))
def test_prediction_factors(count: int, share: float) -> None:
    assert prediction_factor(count + 1, share) < prediction_factor(count, share)
    assert prediction_factor_known_scatter(count, share) < prediction_factor(count, share)


@settings(deadline=None)
@given(st.lists(STRENGTH, min_size=1, max_size=12))
def test_summary_agrees_with_its_parts(values: list[float]) -> None:
    figures = summary(values)
    assert figures is not None
    assert figures.lowest <= figures.mean <= figures.highest
    if len(values) > 1:
        assert figures.deviation == deviation(values)
        assert deviation(values) <= figures.highest - figures.lowest


@settings(deadline=None)
@given(st.lists(STRENGTH, min_size=3, max_size=20, unique=True), st.sampled_from(["lowest", "highest", "either"]))
def test_grubbs_statistic_stays_below_its_bound(values: list[float], side: str) -> None:
    """No value of n lies further from the mean than (n − 1) / √n sample standard deviations."""
    remark = grubbs(values, "stress", 0.05, side)  # type: ignore[arg-type]
    count = len(values)
    assert remark.statistic is not None and remark.critical is not None and remark.suspect is not None
    assert 0.0 <= remark.statistic <= (count - 1) / count**0.5 * (1 + 1e-12)
    assert remark.critical < (count - 1) / count**0.5
    assert values[remark.suspect] == remark.value
    assert remark.beyond is (remark.statistic > remark.critical)
