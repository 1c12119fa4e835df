"""Basic figures of a set of test values, and the lines that work them out for a reader.

Values are floats in SI units; the order in which they come never changes a result.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence

from compliance.record import record, replace
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.series import DOTS, WRITTEN_OUT
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given, Step


class StatisticError(ValueError):
    """A statistic, a parameter or a value that cannot be worked with; the message says what to mend."""


@record
class Sample:
    """Test values, lowest first, with their kind of measure. Build it with `sample`."""

    values: tuple[float, ...]
    kind: str

    @property
    def count(self) -> int:
        return len(self.values)

    @property
    def lowest(self) -> float:
        return self.values[0]

    @property
    def highest(self) -> float:
        return self.values[-1]


def sample(values: Sequence[float], kind: str) -> Sample:
    """The values in order of size. Raises StatisticError for a value that is not a finite number."""
    for value in values:
        if not math.isfinite(value):
            raise StatisticError(f"{value} is not a finite number")
    return Sample(tuple(sorted(map(float, values))), kind)


def mean(values: Sequence[float]) -> float:
    """Arithmetic mean, rounded once. Raises StatisticError without values."""
    return statistics.mean(_enough(values, 1))


def median(values: Sequence[float]) -> float:
    """Middle value, or the mean of the two middle ones. Raises StatisticError without values."""
    return statistics.median(_enough(values, 1))


def deviation(values: Sequence[float]) -> float:
    """Sample standard deviation, with n − 1. Raises StatisticError for fewer than two values."""
    return statistics.stdev(_enough(values, 2))


def variation(values: Sequence[float]) -> float:
    """Coefficient of variation, standard deviation over mean, a ratio.

    Raises StatisticError for fewer than two values or a mean that is not above zero.
    """
    centre = mean(values)
    if centre <= 0.0:
        raise StatisticError("a coefficient of variation needs a mean above zero")
    return deviation(values) / centre


@record
class Summary:
    """What a table of test results prints below its rows; None where too few values or no mean above zero."""

    count: int
    lowest: float
    highest: float
    mean: float
    median: float
    deviation: float | None
    variation: float | None


def summary(values: Sequence[float]) -> Summary | None:
    """The basic figures of a set, None for an empty one. Raises StatisticError for a value that is not finite."""
    if not values:
        return None
    known = sample(values, "ratio")
    spread = deviation(known.values) if known.count > 1 else None
    centre = mean(known.values)
    return Summary(
        count=known.count,
        lowest=known.lowest,
        highest=known.highest,
        mean=centre,
        median=median(known.values),
        deviation=spread,
        variation=spread / centre if spread is not None and centre > 0.0 else None,
    )


def _enough(values: Sequence[float], least: int) -> tuple[float, ...]:
    if len(values) < least:
        raise StatisticError(f"needs {least} or more values, has {len(values)}")
    return sample(values, "ratio").values


# Lines of a calculation. Symbols: x₁ ... xₙ the values, lowest first; n how many; m mean; s standard deviation.


def ranked(known: Sample) -> tuple[Given, ...]:
    """Every value as x₁ (lowest) ... xₙ (highest)."""
    return tuple(
        Given(f"x{_subscript(rank)}", value, known.kind, f"value {rank} of {known.count}, lowest first")
        for rank, value in enumerate(known.values, start=1)
    )


def count_given(known: Sample) -> Given:
    return Given("n", float(known.count), "count", "number of values")


_VALUES, _MEAN, _COUNT = Series("x", "stress"), Symbol("m", "stress", "mean"), Symbol("n", "count", "number of values")

mean_of_values = equation("Mean", "sum(value) / count", _MEAN, "arithmetic mean", value=_VALUES, count=_COUNT)

deviation_of_values = equation(
    "Sample standard deviation", "sqrt(sum((value - mean) ** 2) / (count - 1))",
    Symbol("s", "stress", "sample standard deviation"), "sample standard deviation, n − 1",
    value=_VALUES, mean=_MEAN, count=_COUNT,
)  # fmt: skip

EQUATIONS = (mean_of_values, deviation_of_values)


def mean_step(known: Sample) -> Step:
    """m = (x₁ + x₂ + ...) / n"""
    line = mean_of_values.of_kinds(result=known.kind).step(ranked(known), known.count)
    return rounded_result(line, mean(known.values))


def deviation_step(known: Sample) -> Step:
    """s = √(((x₁ − m)² + (x₂ − m)² + ...) / (n − 1))"""
    named = deviation_of_values.of_kinds(result=known.kind, mean=known.kind)
    return rounded_result(named.step(ranked(known), mean(known.values), known.count), deviation(known.values))


def rounded_result(line: Step, value: float) -> Step:
    """A line whose value was worked out without rounding on the way; the equation's own can differ in its last digit,
    and equal values must have that value as their mean."""
    return replace(line, result=replace(line.result, value=value))


def product_of(terms: Sequence[str]) -> str:
    """The terms of a product, a long one shortened as a long sum is."""
    written = terms if len(terms) <= WRITTEN_OUT else [*terms[:2], DOTS, terms[-1]]
    return " × ".join(written)


def _subscript(number: int) -> str:
    return "".join("₀₁₂₃₄₅₆₇₈₉"[int(digit)] for digit in str(number))
