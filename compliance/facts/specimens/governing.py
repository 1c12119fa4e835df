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
    mean,
    mean_of_values,
    mean_step,
    product_of,
    ranked,
    rounded_result,
)
from compliance.facts.specimens.tolerance import (
    PREDICTION_SOURCE,
    prediction_steps,
    prediction_steps_known_scatter,
    tolerance_steps,
)
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given, Source, Step

SCATTER_SOURCE = Source("small set of tests reduced by its scatter; form of NZS 4298:1998 (recalled)")
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


_VALUES = Series("x", "stress")
_MEAN, _GOVERNING = Symbol("m", "stress", "mean"), Symbol("x", "stress", "governing value")
_DEVIATION = Symbol("s", "stress", "sample standard deviation")

lowest_value = equation("Lowest value", "min(value)", _GOVERNING, DEFINED, value=_VALUES)
highest_value = equation("Highest value", "max(value)", _GOVERNING, DEFINED, value=_VALUES)

governing_mean = equation("Mean", mean_of_values.expression, _GOVERNING, DEFINED, **mean_of_values.symbols)

reduction_for_scatter = equation(
    "Reduction for scatter", "max(0, 1 - weight * deviation / mean)",
    Symbol("r", "ratio", "reduction for scatter"), SCATTER_SOURCE,
    weight=Symbol("c", "ratio", "weight of the scatter"), deviation=_DEVIATION, mean=_MEAN,
)  # fmt: skip

lowest_reduced = equation(
    "Lowest value, reduced for scatter", "reduction * lowest", _GOVERNING, SCATTER_SOURCE,
    reduction=Symbol("r", "ratio", "reduction for scatter"), lowest=Symbol("x₁", "stress"),
)  # fmt: skip

limit_below_mean = equation(
    "Lower limit", "mean - factor * deviation", _GOVERNING, "", mean=_MEAN, factor=Symbol("k"), deviation=_DEVIATION
)  # fmt: skip

limit_known_scatter = equation(
    "Lower limit for one further test", "mean * (1 - factor * variation)", _GOVERNING, PREDICTION_SOURCE,
    mean=_MEAN, factor=Symbol("k"),
    variation=Symbol("V", "ratio", "coefficient of variation, known beforehand"),
)  # fmt: skip

scatter_of_logarithms = equation(
    "Scatter of the logarithms", "sqrt(sum(ln(value / middle) ** 2) / (count - 1))",
    Symbol("v", "ratio", "standard deviation of the logarithms"), DEFINED,
    value=_VALUES, middle=Symbol("g", "stress", "geometric mean"), count=Symbol("n", "count", "number of values"),
)  # fmt: skip

limit_below_geometric_mean = equation(
    "Lower limit", "middle * exp(-(factor * scatter))", _GOVERNING, LOGNORMAL_SOURCE,
    middle=Symbol("g", "stress", "geometric mean"), factor=Symbol("k"),
    scatter=Symbol("v", "ratio", "standard deviation of the logarithms"),
)  # fmt: skip

EQUATIONS = (
    lowest_value, highest_value, governing_mean, reduction_for_scatter, lowest_reduced, limit_below_mean,
    limit_known_scatter, scatter_of_logarithms, limit_below_geometric_mean,
)  # fmt: skip


def lowest(known: Sample, _: Parameters) -> Governed:
    return _governed(lowest_value.of_kinds(result=known.kind)(ranked(known)))


def highest(known: Sample, _: Parameters) -> Governed:
    """The worst value where more is worse, as of shrinkage."""
    return _governed(highest_value.of_kinds(result=known.kind)(ranked(known)))


def _governed(solved: Solved, *before: Step) -> Governed:
    return Governed(float(solved), (*before, solved.step()))


def kth_lowest(known: Sample, parameters: Parameters) -> Governed:
    rank = int(parameters["k"])
    needed = int(parameters.get("of", rank))
    if known.count < needed:
        return Governed(None, reason=f"needs {needed} or more values, has {known.count}")
    given = ranked(known)
    formula = f"{_ordinal(rank)} of ({', '.join(value.symbol for value in given)})"
    says = f"{_ordinal(rank)} lowest of {known.count} values"
    return _one_line(known, says=says, formula=formula, given=given, value=known.values[rank - 1])


def mean_of_all(known: Sample, _: Parameters) -> Governed:
    line = governing_mean.of_kinds(result=known.kind).step(ranked(known), known.count)
    return Governed(mean(known.values), (rounded_result(line, mean(known.values)),))


def mean_of_best(known: Sample, parameters: Parameters) -> Governed:
    best, of = int(parameters["k"]), int(parameters["of"])
    if known.count != of:
        # With any other number, the share of weak specimens left out would not be the one the rule allows.
        return Governed(None, reason=f"the best {best} of {of} need exactly {of} values, there are {known.count}")
    count = Given("k", float(best), "count", "values kept, the highest")
    named = governing_mean.titled(f"Mean of the best {best} of {of}").naming(count="k").of_kinds(result=known.kind)
    value = mean(known.values[-best:])
    return Governed(value, (rounded_result(named.step(ranked(known)[-best:], count), value),))


def lowest_reduced_by_scatter(known: Sample, parameters: Parameters) -> Governed:
    first, second = mean_step(known), deviation_step(known)
    m, s = mean(known.values), deviation(known.values)
    if known.lowest < 0.0 or m == 0.0:
        return Governed(None, reason="a reduction for scatter needs values that are not below zero, not all zero")
    weight = parameters["factor"]
    third = reduction_for_scatter.of_kinds(deviation=known.kind, mean=known.kind)(weight, s, m)
    last = lowest_reduced.of_kinds(result=known.kind, lowest=known.kind)(third, ranked(known)[0])
    return _governed(last, first, second, third.step())


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
    last = limit_known_scatter.of_kinds(result=known.kind, mean=known.kind)(m, lines[-1].result, variation)
    return _governed(last, first, *lines)


def _below_mean(known: Sample, lines: tuple[Step, ...]) -> Governed:
    """mean − k × s, with k the result of the last of `lines`. Below zero where the scatter is large."""
    first, second = mean_step(known), deviation_step(known)
    named = limit_below_mean.of_kinds(result=known.kind, mean=known.kind, deviation=known.kind)
    last = named.sourced(lines[-1].source)(mean(known.values), lines[-1].result, deviation(known.values))
    return _governed(last, first, second, *lines)


def _below_geometric_mean(known: Sample, lines: tuple[Step, ...]) -> Governed:
    """The same on logarithms: g × exp(−k × v), g the geometric mean, v the standard deviation of ln(x / g).

    Written with x / g so that every number has a unit a reader can check, whichever system it is printed in.
    """
    if known.lowest <= 0.0:
        return Governed(None, reason="a lognormal limit needs values that are all above zero")
    middle = math.exp(mean([math.log(value) for value in known.values]))
    given, product = ranked(known), product_of([value.symbol for value in ranked(known)])
    g = Given("g", middle, known.kind, "geometric mean")
    first = Step(
        "Geometric mean", formula=f"({product})^(1 / n)", given=(*given, count_given(known)), result=g, source=DEFINED
    )
    scatter = scatter_of_logarithms.of_kinds(middle=known.kind)(given, middle, known.count)
    last = limit_below_geometric_mean.of_kinds(result=known.kind, middle=known.kind)
    return _governed(last(middle, lines[-1].result, scatter), first, scatter.step(), *lines)


def _one_line(known: Sample, says: str, formula: str, given: tuple[Given, ...], value: float) -> Governed:
    return Governed(value, (Step(says, formula=formula, given=given, result=_result(known, value), source=DEFINED),))


def _result(known: Sample, value: float) -> Given:
    return Given("x", value, known.kind, "governing value")


def _ordinal(number: int) -> str:
    last = "th" if 11 <= number % 100 <= 13 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{last}"
