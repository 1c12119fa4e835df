"""Basic figures of a set of test values, and the lines that work them out for a reader.

Values are floats in SI units; the order in which they come never changes a result.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence

from compliance.record import record
from compliance.steps import Given, Step

WRITTEN_OUT = 10
"""Sets of up to this many values are written out in full in a formula; larger ones by their first and last."""


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


def listing(terms: Sequence[str], joint: str) -> str:
    """The terms of a long sum or list, in full up to ten of them, otherwise the first two and the last."""
    written = terms if len(terms) <= WRITTEN_OUT else [*terms[:2], "…", terms[-1]]
    return joint.join(written)


def mean_step(known: Sample) -> Step:
    """m = (x₁ + x₂ + ...) / n"""
    given = ranked(known)
    return Step(
        says="Mean",
        formula=f"({listing([value.symbol for value in given], ' + ')}) / n",
        given=(*given, count_given(known)),
        result=Given("m", mean(known.values), known.kind, "mean"),
        source="arithmetic mean",
    )


def deviation_step(known: Sample) -> Step:
    """s = √(((x₁ − m)² + (x₂ − m)² + ...) / (n − 1))"""
    given = ranked(known)
    squares = listing([f"({value.symbol} − m)²" for value in given], " + ")
    return Step(
        says="Sample standard deviation",
        formula=f"√(({squares}) / (n − 1))",
        given=(*given, Given("m", mean(known.values), known.kind, "mean"), count_given(known)),
        result=Given("s", deviation(known.values), known.kind, "sample standard deviation"),
        source="sample standard deviation, n − 1",
    )


def _subscript(number: int) -> str:
    return "".join("₀₁₂₃₄₅₆₇₈₉"[int(digit)] for digit in str(number))
