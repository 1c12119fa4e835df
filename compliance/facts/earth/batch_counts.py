"""One batch of a mix counted out in buckets."""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.record import record

_SAME = 1e-6
_HALF = 2


@record
class BatchCount:
    """Buckets of each material, loose, and of straw, pressed in. `exact` is false where no batch of whole and half
    buckets keeps the proportions, so that part of a bucket has to be measured."""

    buckets: Mapping[str, float]
    straw: float
    exact: bool


def batch_count(parts: Mapping[str, float], straw_dose: float, most: int) -> BatchCount:
    """The largest batch of whole and half buckets of up to `most` buckets of soil and sand that keeps the proportions;
    where there is none, one of `most` buckets. `straw_dose` is buckets for each bucket of soil and sand."""
    total = math.fsum(parts.values())
    for halves in range(most * _HALF, 0, -1):
        size = halves / _HALF
        counts = {mark: part / total * size for mark, part in parts.items()}
        if all(math.isclose(count * _HALF, round(count * _HALF), abs_tol=_SAME) for count in counts.values()):
            rounded = {mark: round(count * _HALF) / _HALF for mark, count in counts.items()}
            if all(rounded.values()):
                return BatchCount(rounded, straw_dose * size, exact=True)
    return BatchCount({mark: part / total * most for mark, part in parts.items()}, straw_dose * most, exact=False)
