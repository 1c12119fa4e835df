"""Beams under loads that all push the same way: one span with any loads, or several spans in a row.

Straight elastic beams of constant section; deflection from bending only. Loads follow one another as powers
of the distance behind their start, so that every value below is exact, not a sum over slices.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from compliance.record import record
from compliance.rules.formulas.symbols import need_not_negative, need_positive

# Moment and sag do not change at their greatest: a place wrong by 1e-12 of the span is wrong in them by its square.
_HALVINGS = 40


@record
class Spread:
    """A load that changes evenly from `at_start` to `at_end` [N/m] between two places on the beam [m]."""

    start: float
    end: float
    at_start: float
    at_end: float


@record
class Point:
    """A force [N] at a place on the beam [m]."""

    at: float
    force: float


Load = Spread | Point


def uniform(span: float, intensity: float) -> tuple[Load, ...]:
    return (Spread(0.0, span, intensity, intensity),)


@record
class _Term:
    """`size` × <x - start>^(order - 1): a force (0), an even load (1) or a growing one (2)."""

    size: float
    order: int
    start: float

    def integral(self, times: int, x: float) -> float:
        power = self.order + times - 1
        return self.size * (x - self.start) ** power / math.factorial(power) if x >= self.start else 0.0


class SimpleBeam:
    """A beam on two supports at its ends. Values in N, m, N·m, Pa. A force right over a support goes into it.

    Raises ValueError for a load off the beam, a load that pulls the other way or a span not above zero.
    """

    def __init__(self, span: float, loads: Sequence[Load]) -> None:
        need_positive(span=span)
        self.span = span
        self._terms = tuple(term for load in loads for term in _terms_of(load, span))
        total = self._load(1, span)
        self.left = self._load(2, span) / span
        self.right = total - self.left

    def _load(self, times: int, x: float) -> float:
        return math.fsum(term.integral(times, x) for term in self._terms)

    def shear(self, x: float) -> float:
        return self.left - self._load(1, x)

    def moment(self, x: float) -> float:
        return self.left * x - self._load(2, x)

    @property
    def greatest_shear(self) -> float:
        return max(self.left, self.right)

    @property
    def greatest_moment(self) -> float:
        """At the place where the shear changes its sign."""
        return self.moment(self._crossing(self.shear))

    def deflection(self, x: float, modulus: float, second_moment: float) -> float:
        """Sag [m] at `x`, from M = -E I y'' integrated twice and held at both ends."""
        need_positive(modulus=modulus, second_moment=second_moment)
        return (self._tilt * x - self.left * x**3 / 6 + self._load(4, x)) / (modulus * second_moment)

    def greatest_deflection(self, modulus: float, second_moment: float) -> float:
        """At the place where the slope changes its sign."""
        return self.deflection(self._crossing(self._slope), modulus, second_moment)

    @property
    def _tilt(self) -> float:
        return (self.left * self.span**3 / 6 - self._load(4, self.span)) / self.span

    def _slope(self, x: float) -> float:
        return self._tilt - self.left * x**2 / 2 + self._load(3, x)

    def _crossing(self, falling: Callable[[float], float]) -> float:
        """Where a function that falls along the beam reaches zero."""
        low, high = 0.0, self.span
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if falling(middle) > 0 else (low, middle)
        return (low + high) / 2


def _terms_of(load: Load, span: float) -> tuple[_Term, ...]:
    over = span * (1 + 1e-12)
    if isinstance(load, Point):
        need_not_negative(force=load.force)
        if not 0 <= load.at <= over:
            raise ValueError(f"a force at {load.at} m is off the beam of {span} m")
        return (_Term(load.force, 0, min(load.at, span)),)
    need_not_negative(load_at_start=load.at_start, load_at_end=load.at_end)
    if not 0 <= load.start < load.end <= over:
        raise ValueError(f"a load from {load.start} m to {load.end} m is off the beam of {span} m")
    growth = (load.at_end - load.at_start) / (load.end - load.start)
    return (
        _Term(load.at_start, 1, load.start),
        _Term(growth, 2, load.start),
        _Term(-load.at_end, 1, load.end),
        _Term(-growth, 2, load.end),
    )
