"""The same building described otherwise has the same findings: walls in pieces, shifted, turned, mirrored, reversed.

`EARTH_BUILDINGS` in the environment sets how many descriptions of each building are tried; 5,000 in the long run.
"""

from __future__ import annotations

import math
import os
from collections import defaultdict
from random import Random
from typing import Any

import pytest

from tests.buildings.judging import Checker
from tests.buildings.reading import Building, read_building
from tests.buildings.transforming import mirror, original_mark, reverse, rotate, shift, split_walls

TRIES = int(os.environ.get("EARTH_BUILDINGS", "1"))
MARKS = (
    "sound/cabin-16x12", "sound/cabin-gable-ends", "sound/cabin-ridge-post", "sound/cabin-curved-bay",
    "sound/d-shaped-room", "sound/workshop-28x14-buttressed", "sound/octagon-room", "sound/l-house", "sound/t-house",
    "dangerous/long-wall-in-five-pieces", "dangerous/straight-into-arc", "dangerous/gable-of-ten-inches",
    "dangerous/pilasters-8-by-12", "dangerous/twelve-sided-ring",
)  # fmt: skip
Found = dict[tuple[str, str], set[str]]


@pytest.fixture(scope="module")
def checker() -> Checker:
    return Checker()


def findings(checker: Checker, whole: Building, sections: dict[str, Any], *, numbered: bool = True) -> Found:
    """Outcomes by rule and subject, pieces under the mark of the wall they are of; of walls drawn from their other end
    the piers of one wall together, for they are numbered from its start."""
    result = checker.check(Building(whole.mark, why=whole.why, sections=sections, sets=whole.sets, tested=whole.tested))
    assert not result.crash and not result.problems, (result.crash, result.problems)
    found: Found = defaultdict(set)
    for one in result.findings:
        subject = original_mark(one.subject)
        wall, dot, rest = subject.partition(".")
        pier = dot and rest[:1] == "P" and rest[1:].isdigit()
        found[one.rule, f"{wall}.P" if pier and not numbered else subject].add(one.outcome)
    return dict(found)


def differences(one: Found, other: Found) -> dict[tuple[str, str], tuple[set[str], set[str]]]:
    return {
        key: (one.get(key, set()), other.get(key, set()))
        for key in one.keys() | other.keys()
        if one.get(key) != other.get(key)
    }


@pytest.mark.parametrize("mark", MARKS)
def test_walls_in_pieces(checker: Checker, mark: str) -> None:
    whole = next(read_building(mark))
    plain = findings(checker, whole, dict(whole.sections))
    for seed in range(TRIES):
        split = split_walls(whole.sections, Random(f"{mark} {seed}"), most=4)
        assert differences(plain, findings(checker, whole, split)) == {}


@pytest.mark.parametrize("mark", MARKS)
def test_moved_and_mirrored(checker: Checker, mark: str) -> None:
    whole = next(read_building(mark))
    plain = findings(checker, whole, dict(whole.sections))
    for seed in range(TRIES):
        chance = Random(f"{mark} {seed}")
        moved = shift(rotate(whole.sections, chance.uniform(0, 2 * math.pi)), chance.uniform(-50, 50), 7.0)
        moved = mirror(moved) if chance.random() < 0.5 else moved
        assert differences(plain, findings(checker, whole, moved)) == {}


@pytest.mark.parametrize("mark", MARKS)
def test_drawn_from_the_other_end(checker: Checker, mark: str) -> None:
    whole = next(read_building(mark))
    plain = findings(checker, whole, dict(whole.sections), numbered=False)
    for seed in range(TRIES):
        chance = Random(f"{mark} {seed}")
        some = {wall for wall in whole.sections["walls"] if chance.random() < 0.5}
        assert differences(plain, findings(checker, whole, reverse(whole.sections, some), numbered=False)) == {}
