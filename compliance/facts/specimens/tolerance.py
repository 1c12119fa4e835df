"""Factors k for judging a population by a few specimens, as floats and as lines of a calculation.

A limit of the form mean − k × s answers one of two questions. A tolerance factor: above which value does at least a
stated share of all such specimens lie, said with a stated confidence? A prediction factor: which value will one
further specimen exceed, with a stated probability? The two differ, and neither is a safety factor.
"""

from __future__ import annotations

import math

from compliance.facts.specimens.quantiles import noncentral_t_quantile, normal_quantile, student_t_quantile
from compliance.steps import Given, Step

TOLERANCE_SOURCE = "one-sided tolerance limit of a normal population; NIST/SEMATECH e-Handbook 7.2.6.3"
PREDICTION_SOURCE = "prediction of one further value; the rule behind EN 1990 Annex D, Table D.1 (recalled)"


def tolerance_factor(count: int, share: float, confidence: float) -> float:
    """k such that `share` of a normal population lies above mean − k × s, said with `confidence`.

    k = t(confidence; n − 1; z(share) × √n) / √n with the noncentral t quantile, exact; some printed tables and
    handbook formulas approximate it. Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3.
    Raises ValueError for fewer than two values or a share or confidence outside 0.5 ... 0.9999999.
    """
    _check_count(count, 2)
    return noncentral_t_quantile(confidence, count - 1, _shift(count, share)) / math.sqrt(count)


def prediction_factor(count: int, share: float) -> float:
    """k such that one further value exceeds mean − k × s with probability `share`: t(share; n − 1) × √(1 + 1/n).

    The rule behind EN 1990 Annex D, Table D.1, scatter unknown (recalled). Raises ValueError for fewer than two
    values or a share outside 0.5 ... 0.9999999.
    """
    _check_count(count, 2)
    return student_t_quantile(share, count - 1) * math.sqrt(1.0 + 1.0 / count)


def prediction_factor_known_scatter(count: int, share: float) -> float:
    """The same where the scatter is known beforehand: z(share) × √(1 + 1/n).

    The rule behind EN 1990 Annex D, Table D.1, scatter known (recalled). Raises ValueError for no value or a
    share outside 0.5 ... 0.9999999.
    """
    _check_count(count, 1)
    return normal_quantile(share) * math.sqrt(1.0 + 1.0 / count)


def tolerance_steps(count: int, share: float, confidence: float) -> tuple[Step, ...]:
    """The lines that lead to `tolerance_factor`, k the result of the last. Raises as that does."""
    k = _factor("one-sided tolerance factor", tolerance_factor(count, share, confidence))
    n, z, d = _count(count), _normal(share), Given("d", _shift(count, share), "ratio", "shift of the distribution")
    sure = Given("C", confidence, "ratio", "confidence")
    t = Given("t", noncentral_t_quantile(confidence, count - 1, _shift(count, share)), "ratio", "noncentral t value")
    return (
        _normal_step(share),
        Step("Shift of the noncentral t distribution", "z × √n", (z, n), d, TOLERANCE_SOURCE),
        Step("Noncentral t value", "t(C; n − 1; d)", (sure, n, d), t, TOLERANCE_SOURCE),
        Step("One-sided tolerance factor", "t / √n", (t, n), k, TOLERANCE_SOURCE),
    )


def prediction_steps(count: int, share: float) -> tuple[Step, ...]:
    """The lines that lead to `prediction_factor`, k the result of the last. Raises as that does."""
    k = _factor("prediction factor", prediction_factor(count, share))
    n, t = _count(count), Given("t", student_t_quantile(share, count - 1), "ratio", "Student's t value")
    return (
        Step("Student's t value", "t(p; n − 1)", (_share(share), n), t, PREDICTION_SOURCE),
        Step("Prediction factor", "t × √(1 + 1 / n)", (t, n), k, PREDICTION_SOURCE),
    )


def prediction_steps_known_scatter(count: int, share: float) -> tuple[Step, ...]:
    """The lines that lead to `prediction_factor_known_scatter`, k the result of the last. Raises as that does."""
    k = _factor("prediction factor, scatter known", prediction_factor_known_scatter(count, share))
    return (
        _normal_step(share),
        Step("Prediction factor", "z × √(1 + 1 / n)", (_normal(share), _count(count)), k, PREDICTION_SOURCE),
    )


def _shift(count: int, share: float) -> float:
    return normal_quantile(share) * math.sqrt(count)


def _factor(meaning: str, value: float) -> Given:
    return Given("k", value, "ratio", meaning)


def _count(count: int) -> Given:
    return Given("n", float(count), "count", "number of values")


def _share(share: float) -> Given:
    return Given("p", share, "ratio", "share to lie above the limit")


def _normal(share: float) -> Given:
    return Given("z", normal_quantile(share), "ratio", "standard normal value")


def _normal_step(share: float) -> Step:
    return Step(
        "Standard normal value", "z(p)", (_share(share),), _normal(share), "quantile of the normal distribution"
    )


def _check_count(count: int, least: int) -> None:
    if count < least:
        raise ValueError(f"needs {least} or more values, has {count}")
