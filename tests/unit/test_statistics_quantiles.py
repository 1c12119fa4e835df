"""What the quantiles and factors refuse, and the lines that print the factors."""

from __future__ import annotations

import math

import pytest

from compliance.facts.specimens.quantiles import noncentral_t_quantile, normal_quantile, student_t_quantile
from compliance.facts.specimens.tolerance import (
    prediction_factor,
    prediction_factor_known_scatter,
    prediction_steps,
    prediction_steps_known_scatter,
    tolerance_factor,
    tolerance_steps,
)
from compliance.steps import Step
from compliance.units import Writer


@pytest.mark.parametrize("probability", [0.0, 0.49, 0.99999999, 1.0, -1.0, math.nan])
def test_probabilities_out_of_bounds(probability: float) -> None:
    for attempt in (
        lambda: normal_quantile(probability),
        lambda: student_t_quantile(probability, 5),
        lambda: tolerance_factor(5, probability, 0.95),
        lambda: tolerance_factor(5, 0.95, probability),
        lambda: prediction_factor(5, probability),
        lambda: prediction_factor_known_scatter(5, probability),
    ):
        with pytest.raises(ValueError, match=r"a probability from 0\.5 to 0\.9999999 is needed"):
            attempt()


def test_too_few_values_or_degrees_of_freedom() -> None:
    with pytest.raises(ValueError, match="needs 1 or more degrees of freedom, has 0"):
        student_t_quantile(0.95, 0)
    with pytest.raises(ValueError, match="needs 1 or more degrees of freedom, has 0"):
        noncentral_t_quantile(0.95, 0, 1.0)
    with pytest.raises(ValueError, match="needs 2 or more values, has 1"):
        tolerance_factor(1, 0.95, 0.75)
    with pytest.raises(ValueError, match="needs 2 or more values, has 1"):
        prediction_factor(1, 0.95)
    with pytest.raises(ValueError, match="needs 1 or more values, has 0"):
        prediction_factor_known_scatter(0, 0.95)


@pytest.mark.parametrize("shift", [-0.1, math.inf, math.nan])
def test_shift_out_of_bounds(shift: float) -> None:
    with pytest.raises(ValueError, match="shift must be zero or more"):
        noncentral_t_quantile(0.95, 4, shift)


def test_the_middle_of_a_symmetric_distribution_is_zero() -> None:
    assert normal_quantile(0.5) == 0.0
    assert student_t_quantile(0.5, 3) == 0.0
    assert tolerance_factor(5, 0.5, 0.5) == 0.0


def _lines(steps: tuple[Step, ...]) -> list[str]:
    return [step.line(Writer("si")) for step in steps]


def test_tolerance_lines() -> None:
    assert _lines(tolerance_steps(4, 0.95, 0.75)) == [
        "Standard normal value: z = z(p) = z(0.95) = 1.645",
        "Shift of the noncentral t distribution: d = z × √n = 1.645 × √4 = 3.29",
        "Noncentral t value: t = t(C; n − 1; d) = t(0.75; 4 − 1; 3.29) = 5.361",
        "One-sided tolerance factor: k = t / √n = 5.361 / √4 = 2.681",
    ]
    assert tolerance_steps(4, 0.95, 0.75)[-1].result.value == tolerance_factor(4, 0.95, 0.75)


def test_prediction_lines() -> None:
    assert _lines(prediction_steps(4, 0.95)) == [
        "Student's t value: t = t(p; n − 1) = t(0.95; 4 − 1) = 2.353",
        "Prediction factor: k = t × √(1 + 1 / n) = 2.353 × √(1 + 1 / 4) = 2.631",
    ]
    assert prediction_steps(4, 0.95)[-1].result.value == prediction_factor(4, 0.95)
    assert _lines(prediction_steps_known_scatter(4, 0.95)) == [
        "Standard normal value: z = z(p) = z(0.95) = 1.645",
        "Prediction factor: k = z × √(1 + 1 / n) = 1.645 × √(1 + 1 / 4) = 1.839",
    ]
    assert prediction_steps_known_scatter(4, 0.95)[-1].result.value == prediction_factor_known_scatter(4, 0.95)
