"""Mean, deviation, variation, median, and the lines that print them."""

from __future__ import annotations

import math

import pytest

from compliance.facts.specimens.sample import (
    StatisticError,
    deviation,
    deviation_step,
    mean,
    mean_step,
    median,
    sample,
    summary,
    variation,
)
from compliance.units import Writer

# A set whose figures come out even: mean 5, squared deviations 9 1 1 1 0 0 4 16, sum 32.
EVEN = [2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0]


def test_figures_that_come_out_even() -> None:
    assert mean(EVEN) == 5.0
    assert median(EVEN) == 4.5
    assert median(EVEN[:-1]) == 4.0
    assert deviation(EVEN) == pytest.approx(math.sqrt(32 / 7), rel=1e-15)
    assert variation(EVEN) == pytest.approx(math.sqrt(32 / 7) / 5, rel=1e-15)


def test_equal_values_have_exactly_no_scatter() -> None:
    assert deviation([0.1, 0.1, 0.1]) == 0.0
    assert mean([0.1, 0.1, 0.1]) == 0.1


def test_summary() -> None:
    figures = summary(EVEN)
    assert figures is not None
    assert (figures.count, figures.lowest, figures.highest, figures.mean, figures.median) == (8, 2.0, 9.0, 5.0, 4.5)
    assert figures.deviation == deviation(EVEN)
    assert figures.variation == variation(EVEN)


def test_summary_leaves_out_what_it_cannot_know() -> None:
    assert summary([]) is None
    single = summary([3.0])
    assert single is not None
    assert (single.mean, single.deviation, single.variation) == (3.0, None, None)
    small = summary([0.4, 0.6])
    assert small is not None and small.variation == pytest.approx(math.sqrt(0.02) / 0.5)
    around_zero = summary([-1.0, 1.0])
    assert around_zero is not None
    assert around_zero.deviation == pytest.approx(math.sqrt(2.0))
    assert around_zero.variation is None


def test_too_few_values_are_refused() -> None:
    for figure in (mean, median, deviation, variation):
        with pytest.raises(StatisticError, match=r"needs \d or more values, has 0"):
            figure([])
    for figure in (deviation, variation):
        with pytest.raises(StatisticError, match="needs 2 or more values, has 1"):
            figure([1.0])


def test_variation_needs_a_mean_above_zero() -> None:
    for values in ([-1.0, 1.0], [-2.0, -1.0]):
        with pytest.raises(StatisticError, match="mean above zero"):
            variation(values)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_values_that_are_not_finite_are_refused(value: float) -> None:
    for figure in (mean, median, deviation, variation, summary):
        with pytest.raises(StatisticError, match="not a finite number"):
            figure([1.0, value, 2.0])


def test_mean_line() -> None:
    line = mean_step(sample([3.0, 1.0, 2.0], "count")).line(Writer("si"))
    assert line == "Mean: m = (x₁ + x₂ + x₃) / n = (1 + 2 + 3) / 3 = 2"


def test_deviation_line() -> None:
    line = deviation_step(sample([3.0, 1.0, 2.0], "count")).line(Writer("si"))
    assert line == (
        "Sample standard deviation: s = √(((x₁ − m)² + (x₂ − m)² + (x₃ − m)²) / (n − 1))"
        " = √(((1 − 2)² + (2 − 2)² + (3 − 2)²) / (3 − 1)) = 1"
    )


def test_lines_of_ten_values_are_written_out_and_of_eleven_shortened() -> None:
    ten = mean_step(sample([float(value) for value in range(1, 11)], "count"))
    assert ten.formula == "(x₁ + x₂ + x₃ + x₄ + x₅ + x₆ + x₇ + x₈ + x₉ + x₁₀) / n"
    eleven = mean_step(sample([float(value) for value in range(1, 12)], "count"))
    assert eleven.line(Writer("si")) == "Mean: m = (x₁ + x₂ + … + x₁₁) / n = (1 + 2 + … + 11) / 11 = 6"
    assert [value.value for value in eleven.given[:-1]] == [float(value) for value in range(1, 12)]
