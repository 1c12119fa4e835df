"""Factors k for judging a population by a few specimens, as floats and as lines of a calculation.

A limit of the form mean − k × s answers one of two questions. A tolerance factor: above which value does at least a
stated share of all such specimens lie, said with a stated confidence? A prediction factor: which value will one
further specimen exceed, with a stated probability? The two differ, and neither is a safety factor.
"""

from __future__ import annotations

from compliance.facts.specimens.quantiles import noncentral_t_quantile, normal_quantile, student_t_quantile
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Source, Step

TOLERANCE_SOURCE = "one-sided tolerance limit of a normal population; NIST/SEMATECH e-Handbook 7.2.6.3"
PREDICTION_SOURCE = Source("prediction of one further value; the rule behind EN 1990 Annex D, Table D.1 (recalled)")


def tolerance_factor(count: int, share: float, confidence: float) -> float:
    """k such that `share` of a normal population lies above mean − k × s, said with `confidence`.

    k = t(confidence; n − 1; z(share) × √n) / √n with the noncentral t quantile, exact; some printed tables and
    handbook formulas approximate it. Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3.
    Raises ValueError for fewer than two values or a share or confidence outside 0.5 ... 0.9999999.
    """
    _check_count(count, 2)
    return float(one_sided_factor(_noncentral(count, share, confidence), count))


def prediction_factor(count: int, share: float) -> float:
    """k such that one further value exceeds mean − k × s with probability `share`: t(share; n − 1) × √(1 + 1/n).

    The rule behind EN 1990 Annex D, Table D.1, scatter unknown (recalled). Raises ValueError for fewer than two
    values or a share outside 0.5 ... 0.9999999.
    """
    _check_count(count, 2)
    return float(factor_for_one_more(student_t_quantile(share, count - 1), count))


def prediction_factor_known_scatter(count: int, share: float) -> float:
    """The same where the scatter is known beforehand: z(share) × √(1 + 1/n).

    The rule behind EN 1990 Annex D, Table D.1, scatter known (recalled). Raises ValueError for no value or a
    share outside 0.5 ... 0.9999999.
    """
    _check_count(count, 1)
    return float(factor_known_scatter(normal_quantile(share), count))


_COUNT = Symbol("n", "count", "number of values")
_NORMAL = Symbol("z", "ratio", "standard normal value")

shift_of_distribution = equation(
    "Shift of the noncentral t distribution", "normal * sqrt(count)",
    Symbol("d", "ratio", "shift of the distribution"), TOLERANCE_SOURCE, normal=_NORMAL, count=_COUNT,
)  # fmt: skip

one_sided_factor = equation(
    "One-sided tolerance factor", "t / sqrt(count)", Symbol("k", "ratio", "one-sided tolerance factor"),
    TOLERANCE_SOURCE, t=Symbol("t", "ratio", "noncentral t value"), count=_COUNT,
)  # fmt: skip

factor_for_one_more = equation(
    "Prediction factor", "t * sqrt(1 + 1 / count)", Symbol("k", "ratio", "prediction factor"), PREDICTION_SOURCE,
    t=Symbol("t", "ratio", "Student's t value"), count=_COUNT,
)  # fmt: skip

factor_known_scatter = equation(
    "Prediction factor", "normal * sqrt(1 + 1 / count)", Symbol("k", "ratio", "prediction factor, scatter known"),
    PREDICTION_SOURCE, normal=_NORMAL, count=_COUNT,
)  # fmt: skip

EQUATIONS = (shift_of_distribution, one_sided_factor, factor_for_one_more, factor_known_scatter)


def tolerance_steps(count: int, share: float, confidence: float) -> tuple[Step, ...]:
    """The lines that lead to `tolerance_factor`, k the result of the last. Raises as that does."""
    _check_count(count, 2)
    shift = shift_of_distribution.step(normal_quantile(share), count)
    t = Given("t", _noncentral(count, share, confidence), "ratio", "noncentral t value")
    given = (Given("C", confidence, "ratio", "confidence"), _count(count), shift.result)
    noncentral = Step("Noncentral t value", formula="t(C; n − 1; d)", given=given, result=t, source=TOLERANCE_SOURCE)
    return (_normal_step(share), shift, noncentral, one_sided_factor.step(t, count))


def prediction_steps(count: int, share: float) -> tuple[Step, ...]:
    """The lines that lead to `prediction_factor`, k the result of the last. Raises as that does."""
    _check_count(count, 2)
    t = Given("t", student_t_quantile(share, count - 1), "ratio", "Student's t value")
    student = Step(
        "Student's t value",
        formula="t(p; n − 1)",
        given=(_share(share), _count(count)),
        result=t,
        source=PREDICTION_SOURCE,
    )
    return (student, factor_for_one_more.step(t, count))


def prediction_steps_known_scatter(count: int, share: float) -> tuple[Step, ...]:
    """The lines that lead to `prediction_factor_known_scatter`, k the result of the last. Raises as that does."""
    _check_count(count, 1)
    return (_normal_step(share), factor_known_scatter.step(normal_quantile(share), count))


def _noncentral(count: int, share: float, confidence: float) -> float:
    return noncentral_t_quantile(confidence, count - 1, shift_of_distribution(normal_quantile(share), count))


def _count(count: int) -> Given:
    return Given("n", float(count), "count", "number of values")


def _share(share: float) -> Given:
    return Given("p", share, "ratio", "share to lie above the limit")


def _normal_step(share: float) -> Step:
    """Of a quantile, which no formula gives."""
    z = Given("z", normal_quantile(share), "ratio", "standard normal value")
    return Step(
        "Standard normal value",
        formula="z(p)",
        given=(_share(share),),
        result=z,
        source="quantile of the normal distribution",
    )


def _check_count(count: int, least: int) -> None:
    if count < least:
        raise ValueError(f"needs {least} or more values, has {count}")
