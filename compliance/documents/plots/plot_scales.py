"""Scales of plots and room for their labels: round tick values, and labels pushed apart until none covers another."""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.record import record

_ROUND = (1.0, 2.0, 2.5, 5.0, 10.0)
_CLOSE = 1e-9


@record
class Scale:
    """A straight scale: values from `low` to `high` onto `start` to `end` in points. `ticks` are round values."""

    low: float
    high: float
    start: float
    end: float
    ticks: tuple[float, ...]

    def at(self, value: float) -> float:
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)


def scale(values: Sequence[float], start: float, end: float, from_zero: bool = True, most_ticks: int = 6) -> Scale:
    """A scale that holds all of `values`, with at most `most_ticks` ticks and both ends on a tick."""
    low, high = (min(0.0, *values), max(values)) if from_zero else (min(values), max(values))
    if math.isclose(low, high, rel_tol=_CLOSE, abs_tol=_CLOSE):
        low, high = (low - 1, high + 1) if low else (0.0, 1.0)
    step = _step(high - low, most_ticks - 2)
    first, last = math.floor(low / step + _CLOSE), math.ceil(high / step - _CLOSE)
    ticks = tuple(round(number * step, 12) for number in range(first, last + 1))
    return Scale(ticks[0], high=ticks[-1], start=start, end=end, ticks=ticks)


def _step(span: float, count: int) -> float:
    """The smallest round number that divides `span` into at most `count` parts."""
    least = span / count
    power = 10.0 ** math.floor(math.log10(least))
    return next(round_one * power for round_one in _ROUND if round_one * power >= least * (1 - _CLOSE))


def tick_text(value: float) -> str:
    return f"{value:.10g}".replace("-", "−")


def spread(wanted: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Places of labels near the `wanted` ones, in their order: no two nearer than half their sizes together, all
    between `low` and `high` where there is room for them (else they run beyond `high`)."""
    order = sorted(range(len(wanted)), key=lambda index: wanted[index])
    found = [0.0] * len(wanted)
    edge = low
    for index in order:
        found[index] = max(wanted[index], edge + sizes[index] / 2)
        edge = found[index] + sizes[index] / 2
    edge = high
    for index in reversed(order):
        if found[index] + sizes[index] / 2 <= edge:
            break
        found[index] = edge - sizes[index] / 2
        edge = found[index] - sizes[index] / 2
    if order and found[order[0]] - sizes[order[0]] / 2 < low - _CLOSE:
        edge = low
        for index in order:
            found[index] = edge + sizes[index] / 2
            edge += sizes[index]
    return found
