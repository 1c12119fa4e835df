"""Prediction factors against EN 1990 Annex D, Table D.1.

The table's figures are recalled, not read. They are not tolerance factors with 75 % confidence, as is sometimes said:
they are prediction factors, 1.645 × √(1 + 1/n) for a known coefficient of variation and t(0.95; n − 1) × √(1 + 1/n)
for an unknown one. The "formula" rows below were computed beforehand with scipy.
"""

from __future__ import annotations

import math

import pytest
from scipy import stats

from compliance.facts.specimens.quantiles import normal_quantile
from compliance.facts.specimens.statistics import govern
from compliance.facts.specimens.tolerance import prediction_factor, prediction_factor_known_scatter

HALF_A_DIGIT = 0.0005 + 1e-9
KNOWN_FORMULA = {
    1: 2.326, 2: 2.015, 3: 1.899, 4: 1.839, 5: 1.802, 6: 1.777, 8: 1.745, 10: 1.725, 20: 1.685, 30: 1.672,
}  # fmt: skip
KNOWN_TABLE = {1: 2.31, 2: 2.01, 3: 1.89, 4: 1.83, 5: 1.80, 6: 1.77, 8: 1.74, 10: 1.72, 20: 1.68, 30: 1.67}
UNKNOWN_FORMULA = {2: 7.733, 3: 3.372, 4: 2.631, 5: 2.335, 6: 2.177, 8: 2.010, 10: 1.923, 20: 1.772, 30: 1.727}
UNKNOWN_TABLE = {3: 3.37, 4: 2.63, 5: 2.33, 6: 2.18, 8: 2.00, 10: 1.92, 20: 1.76, 30: 1.73}


@pytest.mark.parametrize("count", KNOWN_FORMULA)
def test_known_scatter_formula_row(count: int) -> None:
    assert prediction_factor_known_scatter(count, 0.95) == pytest.approx(KNOWN_FORMULA[count], abs=HALF_A_DIGIT)


@pytest.mark.parametrize("count", UNKNOWN_FORMULA)
def test_unknown_scatter_formula_row(count: int) -> None:
    assert prediction_factor(count, 0.95) == pytest.approx(UNKNOWN_FORMULA[count], abs=HALF_A_DIGIT)


def test_printed_table_recalled() -> None:
    """Against the recalled table the rule stays within 0.02: the table was rounded down, mostly in its last digit.

    Largest: known scatter, n = 1, table 2.31, rule 2.326. A rule set that wants the printed figures must bring them.
    """
    for count, printed in KNOWN_TABLE.items():
        assert -0.005 <= prediction_factor_known_scatter(count, 0.95) - printed <= 0.017
    for count, printed in UNKNOWN_TABLE.items():
        assert -0.005 <= prediction_factor(count, 0.95) - printed <= 0.013


def test_without_end_both_rows_come_to_the_normal_value() -> None:
    """Last column of the table: 1.64 (recalled) for any large number of values; the normal 5 % value is 1.645."""
    assert normal_quantile(0.95) == pytest.approx(1.645, abs=HALF_A_DIGIT)
    assert prediction_factor(100_000, 0.95) == pytest.approx(1.645, abs=HALF_A_DIGIT)
    assert prediction_factor_known_scatter(100_000, 0.95) == pytest.approx(1.645, abs=HALF_A_DIGIT)


@pytest.mark.parametrize("share", [0.75, 0.90, 0.95, 0.99])
def test_rule_against_scipy(share: float) -> None:
    for count in [*range(2, 21), 30, 50, 100, 200]:
        root = math.sqrt(1.0 + 1.0 / count)
        assert prediction_factor(count, share) == pytest.approx(stats.t.ppf(share, count - 1) * root, rel=1e-9)
        assert prediction_factor_known_scatter(count, share) == pytest.approx(stats.norm.ppf(share) * root, rel=1e-9)


def test_a_prediction_is_right_as_often_as_it_says() -> None:
    """From first principles, no table: of 40 000 simulated sets of five, 95 % have a sixth value above the limit.

    The standard error of that share is √(0.95 × 0.05 / 40 000) = 0.0011; four of them are allowed.
    """
    draws = stats.norm.rvs(loc=2.0, scale=0.3, size=(40_000, 6), random_state=20_240_501)
    limit = draws[:, :5].mean(axis=1) - prediction_factor(5, 0.95) * draws[:, :5].std(axis=1, ddof=1)
    assert (draws[:, 5] > limit).mean() == pytest.approx(0.95, abs=0.0044)


def test_statistic_refuses_two_values_as_the_table_does() -> None:
    """The table prints no factor for unknown scatter and fewer than three values (recalled)."""
    refused = govern([1.2e6, 1.4e6], "stress", "prediction", {"share": 0.95})
    assert refused.value is None
    assert refused.reason == "needs 3 or more values, has 2"
