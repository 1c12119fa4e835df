"""Quantiles of the normal, Student's t and noncentral t distributions.

Everything here is exact up to rounding and uses the standard library only. The noncentral t quantile is found from
its definition, T = (Z + δ) / √(V / ν) with Z standard normal and V chi-square with ν degrees of freedom:
P(T ≤ t) = E[Φ(t × √(V / ν) − δ)], integrated by the trapezoid rule over u = ln √(V / ν), where the integrand is
smooth and dies away fast on both sides.
"""

from __future__ import annotations

import math
from functools import cache
from statistics import NormalDist

_LEAST_PROBABILITY = 0.5
_MOST_PROBABILITY = 0.9999999  # beyond it nothing here has been checked
_INTERVALS = 400
_LEFT_OUT = 40.0  # the integral is cut where its weight has fallen to exp(-40)
_CLOSE_ENOUGH = 1e-13


def normal_quantile(probability: float) -> float:
    """The standard normal value not exceeded with `probability` (0.95 gives 1.645).

    Raises ValueError outside 0.5 ... 0.9999999.
    """
    _check_probability(probability)
    return NormalDist().inv_cdf(probability)


def student_t_quantile(probability: float, freedom: int) -> float:
    """The value of Student's t with `freedom` degrees of freedom not exceeded with `probability`.

    Raises ValueError outside 0.5 ... 0.9999999 or for fewer than one degree of freedom. Found from the finite
    series of the distribution for whole degrees of freedom (Abramowitz and Stegun, 26.7.3 and 26.7.4).
    """
    _check_probability(probability)
    if freedom < 1:
        raise ValueError(f"needs 1 or more degrees of freedom, has {freedom}")
    if probability == _LEAST_PROBABILITY:
        return 0.0
    within = 2.0 * probability - 1.0
    low, high = 0.0, 1.0
    while _share_within(high, freedom) < within:
        low, high = high, 2.0 * high
    while high - low > _CLOSE_ENOUGH * (1.0 + high):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _share_within(middle, freedom) < within else (low, middle)
    return high


def _share_within(t: float, freedom: int) -> float:
    """P(|T| <= t) of Student's t, t >= 0."""
    angle = math.atan(t / math.sqrt(freedom))
    cosine, sine = math.cos(angle), math.sin(angle)
    if freedom % 2:
        term, total = cosine, 0.0
        for step in range(1, freedom - 1, 2):
            total += term
            term *= cosine * cosine * (step + 1) / (step + 2)
        return 2.0 / math.pi * (angle + sine * total)
    term, total = 1.0, 0.0
    for step in range(1, freedom, 2):
        total += term
        term *= cosine * cosine * step / (step + 1)
    return sine * total


@cache
def noncentral_t_quantile(probability: float, freedom: int, shift: float) -> float:
    """The value of noncentral t, noncentrality `shift` >= 0, not exceeded with `probability`.

    Raises ValueError outside 0.5 ... 0.9999999, for fewer than one degree of freedom, or a shift below zero.
    """
    _check_probability(probability)
    if freedom < 1:
        raise ValueError(f"needs 1 or more degrees of freedom, has {freedom}")
    if not 0.0 <= shift < math.inf:
        raise ValueError(f"the shift must be zero or more, not {shift}")
    if probability == _LEAST_PROBABILITY and shift == 0.0:
        return 0.0
    nodes = _chi_nodes(freedom)

    def reached(t: float) -> float:
        return 0.5 * math.fsum(weight * math.erfc((shift - t * scale) / math.sqrt(2.0)) for scale, weight in nodes)

    low, high = 0.0, 1.0 + shift
    while reached(high) < probability:
        low, high = high, 2.0 * high
    while high - low > _CLOSE_ENOUGH * (1.0 + high):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if reached(middle) < probability else (low, middle)
    return high


@cache
def _chi_nodes(freedom: int) -> tuple[tuple[float, float], ...]:
    """Values of √(V / ν) and their weights, summing to 1: the trapezoid rule in the logarithm of the value.

    The weight at u is proportional to exp(ν × (u − (exp(2u) − 1) / 2)); the ends lie where that is below exp(-40).
    """
    right = math.sqrt(_LEFT_OUT / freedom)
    left = -(right + _LEFT_OUT / freedom)
    step = (right - left) / _INTERVALS
    logs = [left + step * index for index in range(_INTERVALS + 1)]
    weights = [math.exp(freedom * (u - 0.5 * math.expm1(2.0 * u))) for u in logs]
    total = math.fsum(weights)
    return tuple((math.exp(u), weight / total) for u, weight in zip(logs, weights, strict=True))


def _check_probability(probability: float) -> None:
    if not _LEAST_PROBABILITY <= probability <= _MOST_PROBABILITY:
        raise ValueError(f"a probability from {_LEAST_PROBABILITY} to {_MOST_PROBABILITY} is needed, not {probability}")
