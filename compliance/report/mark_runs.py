"""Marks as they are listed for a reader: those that count on by one as a run."""

from __future__ import annotations

import re
from collections.abc import Sequence

_COUNTED = re.compile(r"(.*?)(0|[1-9][0-9]{0,8})", re.ASCII)
_FEWEST_TO_RUN = 4


def in_runs(marks: Sequence[str]) -> list[str]:
    """Marks as they are listed: four or more that count on by one as "W1 to W7"."""
    runs: list[list[str]] = []
    for mark in marks:
        if runs and _follows(runs[-1][-1], mark):
            runs[-1].append(mark)
        else:
            runs.append([mark])
    listed: list[str] = []
    for run in runs:
        listed += [f"{run[0]} to {run[-1]}"] if len(run) >= _FEWEST_TO_RUN else run
    return listed


def _follows(before: str, mark: str) -> bool:
    one, other = _COUNTED.fullmatch(before), _COUNTED.fullmatch(mark)
    return bool(one and other) and one[1] == other[1] and int(one[2]) + 1 == int(other[2])  # type: ignore[index]
