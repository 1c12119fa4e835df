"""Whether specimens that wait for a blank cell could change what a set says."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

from compliance.judging.specimens.counted_specimens import Waiting

Judge = Callable[[Sequence[float]], bool | None]
"""Whether the check holds for results; None where it has no answer."""

_ALL_TRIED = 6


def could_change(results: Sequence[float], waiting: Sequence[Waiting], holds: Judge) -> bool:
    """Yes where the answer differs once some of those that wait count. What one would bring that nobody knows could
    only matter where the answer is a yes."""
    now = holds(results)
    if now and any(one.result is None for one in waiting):
        return True
    known = sorted(one.result for one in waiting if one.result is not None)
    return any(holds([*results, *some]) is not now for some in _some(known))


def _some(values: Sequence[float]) -> Iterator[Sequence[float]]:
    """All choices of a few values; of many each alone, and the lowest and the highest together, one more each time."""
    if len(values) <= _ALL_TRIED:
        for count in range(1, len(values) + 1):
            yield from combinations(values, count)
        return
    yield from ([one] for one in values)
    for count in range(2, len(values) + 1):
        yield values[:count]
        yield values[-count:]
