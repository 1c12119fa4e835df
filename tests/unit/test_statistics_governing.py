"""Each named statistic: its value, its lines, what it refuses and how it says so."""

from __future__ import annotations

import math

import pytest

from compliance.facts.specimens.sample import StatisticError
from compliance.facts.specimens.statistics import STATISTICS, check_parameters, govern
from compliance.facts.specimens.tolerance import prediction_factor, prediction_factor_known_scatter, tolerance_factor
from compliance.steps import Given
from compliance.units import Writer

SIX = [3.0, 1.0, 2.0, 6.0, 5.0, 4.0]  # mean 3.5, sum of squared deviations 17.5, s = √3.5
GOOD: dict[str, dict[str, float]] = {
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


def _value(statistic: str, parameters: dict[str, float], values: list[float] = SIX) -> float:
    governed = govern(values, "ratio", statistic, parameters)
    assert governed.value is not None
    assert governed.reason == ""
    return governed.value


def test_every_statistic_is_tried_here() -> None:
    assert set(GOOD) == set(STATISTICS)
    assert all(name == statistic.name for name, statistic in STATISTICS.items())


def test_order_statistics_and_means() -> None:
    assert _value("lowest", {}) == 1.0
    assert _value("highest", {}) == 6.0
    assert [_value("kth-lowest", {"k": rank}) for rank in range(1, 7)] == [1.0, 2.0, 3.0, 4.0, 5.0, 6.0]
    assert _value("mean", {}) == 3.5
    assert _value("mean-of-best", {"k": 4, "of": 6}) == 4.5
    assert _value("mean-of-best", {"k": 6, "of": 6}) == 3.5


def test_limits_below_the_mean() -> None:
    s = math.sqrt(3.5)
    assert _value("lowest-reduced-by-scatter", {"factor": 1.5}) == pytest.approx(1 - 1.5 * s / 3.5)
    assert _value("lower-fractile", {"share": 0.9, "confidence": 0.8}) == pytest.approx(
        3.5 - tolerance_factor(6, 0.9, 0.8) * s
    )
    assert _value("prediction", {"share": 0.9}) == pytest.approx(3.5 - prediction_factor(6, 0.9) * s)
    assert _value("prediction-known-scatter", {"share": 0.9, "variation": 0.1}) == pytest.approx(
        3.5 * (1 - prediction_factor_known_scatter(6, 0.9) * 0.1)
    )


def test_limits_of_logarithms() -> None:
    values = [math.e, math.e**2, math.e**3]  # logarithms 1, 2, 3: mean 2, s 1
    assert _value("lower-fractile-lognormal", {"share": 0.9, "confidence": 0.8}, values) == pytest.approx(
        math.exp(2 - tolerance_factor(3, 0.9, 0.8))
    )
    assert _value("prediction-lognormal", {"share": 0.9}, values) == pytest.approx(
        math.exp(2 - prediction_factor(3, 0.9))
    )


@pytest.mark.parametrize("statistic", GOOD)
def test_the_last_line_gives_the_value_and_every_symbol_is_given(statistic: str) -> None:
    governed = govern(SIX, "stress", statistic, GOOD[statistic])
    assert governed.steps[-1].result == Given("x", governed.value or 0.0, "stress", "governing value")
    for step in governed.steps:
        assert step.formula
        put_in = step.numbers_put_in(Writer("si"))
        for given in step.given:
            assert step.put_in(given, Writer("si")) in put_in, (step.formula, given)


@pytest.mark.parametrize("statistic", GOOD)
def test_no_values_no_number(statistic: str) -> None:
    refused = govern([], "stress", statistic, GOOD[statistic])
    assert refused.value is None
    assert refused.steps == ()
    assert "needs" in refused.reason or "need exactly" in refused.reason


@pytest.mark.parametrize("statistic", GOOD)
def test_one_value_less_than_the_least_gives_none(statistic: str) -> None:
    least = {"kth-lowest": 5, "mean-of-best": 6}.get(statistic, STATISTICS[statistic].least_count)
    assert govern(SIX[:least], "stress", statistic, GOOD[statistic]).value is not None
    assert govern(SIX[: least - 1], "stress", statistic, GOOD[statistic]).value is None


def test_least_counts() -> None:
    needs_more = {name: statistic.least_count for name, statistic in STATISTICS.items() if statistic.least_count > 1}
    assert needs_more == {
        "lowest-reduced-by-scatter": 2,
        "lower-fractile": 2,
        "lower-fractile-lognormal": 2,
        "prediction": 3,
        "prediction-lognormal": 3,
    }


def test_fourth_lowest_of_five_does_not_turn_into_the_highest_of_four() -> None:
    refused = govern([1.0, 2.0, 3.0, 4.0], "stress", "kth-lowest", {"k": 4, "of": 5})
    assert (refused.value, refused.reason) == (None, "needs 5 or more values, has 4")
    assert govern([1.0, 2.0, 3.0, 4.0], "stress", "kth-lowest", {"k": 5}).reason == "needs 5 or more values, has 4"


def test_more_specimens_never_help_the_kth_lowest() -> None:
    assert _value("kth-lowest", {"k": 4, "of": 5}, [1.0, 2.0, 3.0, 4.0, 5.0]) == 4.0
    assert _value("kth-lowest", {"k": 4, "of": 5}, [1.0, 2.0, 3.0, 3.5, 4.0, 5.0]) == 3.5


def test_best_four_of_six_wants_exactly_six() -> None:
    for count in (4, 5, 7, 12):
        refused = govern([1.0] * count, "stress", "mean-of-best", {"k": 4, "of": 6})
        assert (refused.value, refused.reason) == (
            None,
            f"the best 4 of 6 need exactly 6 values, there are {count}",
        )


def test_the_best_are_the_highest_in_the_line_too() -> None:
    (line,) = govern([6.0, 1.0, 5.0, 2.0, 4.0, 3.0], "stress", "mean-of-best", {"k": 4, "of": 6}).steps
    assert [(one.symbol, one.value) for one in line.given] == [
        ("x₃", 3.0), ("x₄", 4.0), ("x₅", 5.0), ("x₆", 6.0), ("k", 4.0)
    ]  # fmt: skip


def test_a_known_scatter_needs_no_more_than_a_mean_above_zero() -> None:
    found = govern([0.4, 0.6], "ratio", "prediction-known-scatter", {"share": 0.9, "variation": 0.1})
    assert found.value == pytest.approx(0.5 * (1 - prediction_factor_known_scatter(2, 0.9) * 0.1))


def test_values_that_a_statistic_cannot_take() -> None:
    for values in ([0.0, 1.0, 2.0], [-1.0, 1.0, 2.0]):
        for statistic in ("lower-fractile-lognormal", "prediction-lognormal"):
            refused = govern(values, "stress", statistic, GOOD[statistic])
            assert (refused.value, refused.reason) == (None, "a lognormal limit needs values that are all above zero")
    for values in ([-1.0, 1.0, 2.0], [0.0, 0.0], [-2.0, 1.0]):
        refused = govern(values, "stress", "lowest-reduced-by-scatter", {"factor": 1.5})
        assert refused.value is None
        assert "not below zero" in refused.reason
    assert govern([0.0, 1.0], "stress", "lowest-reduced-by-scatter", {"factor": 1.5}).value == 0.0
    for values in ([0.0, 0.0], [-1.0]):
        refused = govern(values, "stress", "prediction-known-scatter", GOOD["prediction-known-scatter"])
        assert (refused.value, "mean above zero" in refused.reason) == (None, True)


def test_a_limit_below_zero_is_given_as_it_comes_out() -> None:
    assert _value("lower-fractile", {"share": 0.95, "confidence": 0.95}, [1.0, 5.0]) < 0.0


def test_unknown_statistic() -> None:
    with pytest.raises(
        StatisticError, match='there is no statistic "average"; there are: lowest, highest, kth-lowest, mean'
    ):
        govern(SIX, "stress", "average", {})


@pytest.mark.parametrize(
    ("statistic", "parameters", "message"),
    [
        ("lowest", {"k": 1}, '"lowest" has no parameter "k"; it takes: none'),
        ("kth-lowest", {"k": 4, "from": 5}, '"kth-lowest" has no parameter "from"; it takes: k, of'),
        ("kth-lowest", {}, '"kth-lowest" needs "k" (rank, 1 the lowest)'),
        ("kth-lowest", {"k": 0}, '"kth-lowest": "k" must be a number from 1 to 1000, not 0'),
        ("kth-lowest", {"k": 1001}, '"kth-lowest": "k" must be a number from 1 to 1000, not 1001'),
        ("kth-lowest", {"k": 2.5}, '"kth-lowest": "k" must be a whole number from 1 to 1000, not 2.5'),
        ("kth-lowest", {"k": 2, "of": 4.5}, '"of" must be a whole number from 1 to 1000, not 4.5'),
        ("mean-of-best", {"k": 3.5, "of": 6}, '"k" must be a whole number from 1 to 1000, not 3.5'),
        ("mean-of-best", {"k": 3, "of": 5.5}, '"of" must be a whole number from 1 to 1000, not 5.5'),
        ("kth-lowest", {"k": True}, '"kth-lowest": "k" must be a number from 1 to 1000, not True'),
        ("kth-lowest", {"k": 6, "of": 5}, '"kth-lowest": k is 6, more than the 5 it is taken of'),
        ("mean-of-best", {"k": 4}, '"mean-of-best" needs "of" (exact number of values)'),
        ("mean-of-best", {"k": 7, "of": 6}, '"mean-of-best": k is 7, more than the 6 it is taken of'),
        ("lowest-reduced-by-scatter", {}, 'needs "factor"'),
        ("lowest-reduced-by-scatter", {"factor": -0.1}, '"factor" must be a number from 0 to 10, not -0.1'),
        ("lowest-reduced-by-scatter", {"factor": math.nan}, '"factor" must be a number from 0 to 10, not nan'),
        ("lower-fractile", {"share": 0.95}, 'needs "confidence" (confidence of the statement)'),
        ("lower-fractile", {"share": 0.05, "confidence": 0.75}, '"share" must be a number from 0.5 to 0.999, not 0.05'),
        ("lower-fractile", {"share": 95, "confidence": 0.75}, '"share" must be a number from 0.5 to 0.999, not 95'),
        ("lower-fractile", {"share": 0.95, "confidence": 0.499}, '"confidence" must be a number from 0.5 to 0.999'),
        ("lower-fractile", {"share": 0.95, "confidence": 0.9991}, '"confidence" must be a number from 0.5 to 0.999'),
        ("prediction", {"share": 1.0}, '"share" must be a number from 0.5 to 0.999, not 1.0'),
        ("prediction-known-scatter", {"share": 0.95, "variation": 0}, '"variation" must be a number from 0.01 to 1'),
    ],
)
def test_parameters_that_are_wrong(statistic: str, parameters: dict[str, float], message: str) -> None:
    for attempt in (
        lambda: check_parameters(statistic, parameters),
        lambda: govern([], "stress", statistic, parameters),
    ):
        with pytest.raises(StatisticError) as caught:
            attempt()
        assert message in str(caught.value)


def test_bounds_themselves_are_allowed() -> None:
    for pair in ({"share": 0.5, "confidence": 0.999}, {"share": 0.999, "confidence": 0.5}):
        assert check_parameters("lower-fractile", pair) == pair
    for statistic in ("kth-lowest", "mean-of-best"):
        assert check_parameters(statistic, {"k": 1, "of": 1}) == {"k": 1.0, "of": 1.0}
    assert check_parameters("kth-lowest", {"k": 5, "of": 5}) == {"k": 5.0, "of": 5.0}
    assert check_parameters("lowest", {}) == {}


@pytest.mark.parametrize("statistic", GOOD)
def test_a_value_that_is_not_finite_is_refused(statistic: str) -> None:
    with pytest.raises(StatisticError, match="not a finite number"):
        govern([1.0, 2.0, 3.0, 4.0, 5.0, math.nan], "stress", statistic, GOOD[statistic])


@pytest.mark.parametrize("rank", [1, 2, 3, 4, 10, 11, 12, 13, 20, 21, 22, 101, 110, 111, 112, 113, 211, 212, 213, 221])
def test_ranks_in_words(rank: int) -> None:
    written = {1: "1st", 2: "2nd", 3: "3rd", 21: "21st", 22: "22nd", 101: "101st", 221: "221st"}.get(rank, f"{rank}th")
    values = [float(value) for value in range(1, 231)]
    assert govern(values, "count", "kth-lowest", {"k": rank}).steps[0].says == f"{written} lowest of 230 values"
