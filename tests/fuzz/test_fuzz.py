"""A short run of every fuzz target, the same inputs each time; four times as many with EARTHWALL_WHOLE=1. Longer:
`python -m tests.fuzz NAME --seconds 600`."""

from __future__ import annotations

import random

import pytest

from tests.fuzz.mutating import changed
from tests.fuzz.seeds import SEEDS, cases
from tests.fuzz.targets import TARGETS
from tests.tries import WHOLE

RUNS = {"project": 60, "rules": 300, "attachments": 300, "workbooks": 600, "measures": 500}
OTHERWISE = 1500
SHARE = 1 if WHOLE else 4


def test_every_target_has_seeds() -> None:
    assert list(SEEDS) == list(TARGETS)


@pytest.mark.parametrize("name", TARGETS)
def test_seeds_are_taken(name: str) -> None:
    """Nothing is learnt from changing what is refused from the start: a good part of the seeds is sound. (Formulas use
    the names of their own limits, and some of the measures are written for other kinds.)"""
    seeds = list(SEEDS[name]())
    assert sum(TARGETS[name](seed) for seed in seeds) >= len(seeds) / 5


@pytest.mark.parametrize("name", TARGETS)
def test_hostile_cases_are_answered_as_documented(name: str) -> None:
    """What a target takes for sound may be refused by a later step; nothing but an answer may come out."""
    for case in cases(name):
        TARGETS[name](case)


@pytest.mark.parametrize("name", TARGETS)
def test_changed_inputs_are_taken_or_refused(name: str) -> None:
    seeds, dice = list(SEEDS[name]()), random.Random(name)
    counts = [0, 0]
    for _ in range(RUNS.get(name, OTHERWISE) // SHARE):
        counts[TARGETS[name](changed(dice, seeds, cases(name)))] += 1
    assert all(counts), f"refused and sound: {counts}"
