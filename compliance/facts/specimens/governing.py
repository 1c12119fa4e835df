"""How one number is drawn from a set of test values: the workings behind `compliance.facts.specimens.statistics`.

Each function takes the values and the parameters, both already checked, and returns the number with its lines, or
no number and the reason. None of them rounds, drops a value unasked or guesses.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from compliance.facts.specimens.sample import (
    Sample,
    count_given,
    deviation,
    deviation_step,
    listing,
    mean,
    mean_step,
    ranked,
)
from compliance.facts.specimens.tolerance import (
    PREDICTION_SOURCE,
    prediction_steps,
    prediction_steps_known_scatter,
    tolerance_steps,
)
from compliance.record import record
from compliance.steps import Given, Step

SCATTER_SOURCE = "small set of tests reduced by its scatter; form of NZS 4298:1998 (recalled)"
LOGNORMAL_SOURCE = "the same limit on the logarithms of the values; CMH-17-1G, chapter 8"
DEFINED = "by definition"


@record
class Governed:
    """The value that governs a set, in SI units of its kind, with its lines; or None and the reason why not."""

    value: float | None
    steps: tuple[Step, ...] = ()
    reason: str = ""


Parameters = Mapping[str, float]
Work = Callable[[Sample, Parameters], Governed]


def lowest(known: Sample, _: Parameters) -> Governed:
    given = ranked(known)
    formula = f"min({listing([value.symbol for value in given], ', ')})"
    return _one_line(known, "Lowest value", formula, given, known.lowest)


def highest(known: Sample, _: Parameters) -> Governed:
    """The worst value where more is worse, as of shrinkage."""
    given = ranked(known)
    formula = f"max({listing([value.symbol for value in given], ', ')})"
    return _one_line(known, "Highest value", formula, given, known.highest)


def kth_lowest(known: Sample, parameters: Parameters) -> Governed:
    rank = int(parameters["k"])
    needed = int(parameters.get("of", rank))
    if known.count < needed:
        return Governed(None, reason=f"needs {needed} or more values, has {known.count}")
    given = ranked(known)
    formula = f"{_ordinal(rank)} of ({', '.join(value.symbol for value in given)})"
    says = f"{_ordinal(rank)} lowest of {known.count} values"
    return _one_line(known, says, formula, given, known.values[rank - 1])


def mean_of_all(known: Sample, _: Parameters) -> Governed:
    step = mean_step(known)
    return _one_line(known, step.says, step.formula, step.given, mean(known.values))


def mean_of_best(known: Sample, parameters: Parameters) -> Governed:
    best, of = int(parameters["k"]), int(parameters["of"])
    if known.count != of:
        # With any other number, the share of weak specimens left out would not be the one the rule allows.
        return Governed(None, reason=f"the best {best} of {of} need exactly {of} values, there are {known.count}")
    kept = ranked(known)[-best:]
    formula = f"({' + '.join(value.symbol for value in kept)}) / k"
    count = Given("k", float(best), "count", "values kept, the highest")
    return _one_line(known, f"Mean of the best {best} of {of}", formula, (*kept, count), mean(known.values[-best:]))


def lowest_reduced_by_scatter(known: Sample, parameters: Parameters) -> Governed:
    first, second = mean_step(known), deviation_step(known)
    m, s = mean(known.values), deviation(known.values)
    if known.lowest < 0.0 or m == 0.0:
        return Governed(None, reason="a reduction for scatter needs values that are not below zero, not all zero")
    weight = parameters["factor"]
    reduced = max(0.0, 1.0 - weight * s / m)
    c, r = Given("c", weight, "ratio", "weight of the scatter"), Given("r", reduced, "ratio", "reduction for scatter")
    third = Step("Reduction for scatter", "max(0, 1 − c × s / m)", (c, second.result, first.result), r, SCATTER_SOURCE)
    result = _result(known, reduced * known.lowest)
    last = Step("Lowest value, reduced for scatter", "r × x₁", (r, ranked(known)[0]), result, SCATTER_SOURCE)
    return Governed(reduced * known.lowest, (first, second, third, last))


def lower_fractile(known: Sample, parameters: Parameters) -> Governed:
    return _below_mean(known, tolerance_steps(known.count, parameters["share"], parameters["confidence"]))


def lower_fractile_lognormal(known: Sample, parameters: Parameters) -> Governed:
    return _below_geometric_mean(known, tolerance_steps(known.count, parameters["share"], parameters["confidence"]))


def prediction(known: Sample, parameters: Parameters) -> Governed:
    return _below_mean(known, prediction_steps(known.count, parameters["share"]))


def prediction_lognormal(known: Sample, parameters: Parameters) -> Governed:
    return _below_geometric_mean(known, prediction_steps(known.count, parameters["share"]))


def prediction_known_scatter(known: Sample, parameters: Parameters) -> Governed:
    first = mean_step(known)
    m, variation = mean(known.values), parameters["variation"]
    if m <= 0.0:
        return Governed(None, reason="a known coefficient of variation needs a mean above zero")
    lines = prediction_steps_known_scatter(known.count, parameters["share"])
    v = Given("V", variation, "ratio", "coefficient of variation, known beforehand")
    value = m * (1.0 - _number(lines[-1]) * variation)
    given = (first.result, lines[-1].result, v)
    last = Step("Lower limit for one further test", "m × (1 − k × V)", given, _result(known, value), PREDICTION_SOURCE)
    return Governed(value, (first, *lines, last))


def _below_mean(known: Sample, lines: tuple[Step, ...]) -> Governed:
    """mean − k × s, with k the result of the last of `lines`. Below zero where the scatter is large."""
    first, second = mean_step(known), deviation_step(known)
    value = mean(known.values) - _number(lines[-1]) * deviation(known.values)
    given = (first.result, lines[-1].result, second.result)
    last = Step("Lower limit", "m − k × s", given, _result(known, value), lines[-1].source)
    return Governed(value, (first, second, *lines, last))


def _below_geometric_mean(known: Sample, lines: tuple[Step, ...]) -> Governed:
    """The same on logarithms: g × exp(−k × v), g the geometric mean, v the standard deviation of ln(x / g).

    Written with x / g so that every number has a unit a reader can check, whichever system it is printed in.
    """
    if known.lowest <= 0.0:
        return Governed(None, reason="a lognormal limit needs values that are all above zero")
    logs = [math.log(value) for value in known.values]
    middle, spread = math.exp(mean(logs)), deviation(logs)
    given = ranked(known)
    product = listing([value.symbol for value in given], " × ")
    squares = listing([f"(ln({value.symbol} / g))²" for value in given], " + ")
    g = Given("g", middle, known.kind, "geometric mean")
    v = Given("v", spread, "ratio", "standard deviation of the logarithms")
    value = middle * math.exp(-_number(lines[-1]) * spread)
    last = Step("Lower limit", "g × exp(−k × v)", (g, lines[-1].result, v), _result(known, value), LOGNORMAL_SOURCE)
    return Governed(
        value,
        (
            Step("Geometric mean", f"({product})^(1 / n)", (*given, count_given(known)), g, DEFINED),
            Step("Scatter of the logarithms", f"√(({squares}) / (n − 1))", (*given, g, count_given(known)), v, DEFINED),
            *lines,
            last,
        ),
    )


def _one_line(known: Sample, says: str, formula: str, given: tuple[Given, ...], value: float) -> Governed:
    return Governed(value, (Step(says, formula, given, _result(known, value), DEFINED),))


def _result(known: Sample, value: float) -> Given:
    return Given("x", value, known.kind, "governing value")


def _number(step: Step) -> float:
    """The result of a line that is known to be a number."""
    return float(step.result.value)


def _ordinal(number: int) -> str:
    last = "th" if 11 <= number % 100 <= 13 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{last}"
