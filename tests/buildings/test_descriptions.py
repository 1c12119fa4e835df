"""The same building described otherwise has the same findings: walls in pieces, shifted, turned, mirrored, reversed.

`EARTH_BUILDINGS` in the environment sets how many descriptions of each building are tried; 5,000 in the long run.
"""

from __future__ import annotations

import functools
import os
from collections import defaultdict
from collections.abc import Mapping
from random import Random
from typing import Any

import pytest

from tests.buildings.described_otherwise import move, split
from tests.buildings.judging import Result, check_building
from tests.buildings.reading import Building, read_building
from tests.buildings.transforming import original_mark, reverse

TRIES = int(os.environ.get("EARTH_BUILDINGS", "1"))
MARKS = (
    "sound/cabin-16x12", "sound/cabin-gable-ends", "sound/cabin-ridge-post", "sound/cabin-curved-bay",
    "sound/d-shaped-room", "sound/workshop-28x14-buttressed", "sound/octagon-room", "sound/l-house", "sound/t-house",
    "dangerous/long-wall-in-five-pieces", "dangerous/straight-into-arc", "dangerous/gable-of-ten-inches",
    "dangerous/pilasters-8-by-12", "dangerous/twelve-sided-ring",
)  # fmt: skip
Sections = Mapping[str, Any]
Found = dict[tuple[str, str], set[str]]


@functools.cache
def plain_result(mark: str) -> Result:
    """Of the building as it stands in the corpus, which each test compares with."""
    return check_building(next(read_building(mark)))


def findings(whole: Building, sections: dict[str, Any], *, numbered: bool = True) -> Found:
    """Outcomes by rule and subject, pieces under the mark of the wall they are of; of walls drawn from their other end
    the piers of one wall together, for they are numbered from its start."""
    described = Building(whole.mark, why=whole.why, sections=sections, sets=whole.sets, tested=whole.tested)
    result = plain_result(whole.mark) if sections == whole.sections else check_building(described)
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
def test_moved_mirrored_and_in_pieces(mark: str) -> None:
    """Both at once; one by one where that differs, to say which it is, and wherever many descriptions are tried."""
    whole = next(read_building(mark))
    plain = findings(whole, dict(whole.sections))
    for seed in range(TRIES):
        first = split(whole.sections, Random(f"{mark} {seed}"))
        both = differences(plain, findings(whole, dict(move(first, Random(f"{mark} {seed}")))))
        if both or TRIES > 1:
            for describe in (split, move):
                other = describe(whole.sections, Random(f"{mark} {seed}"))
                assert differences(plain, findings(whole, dict(other))) == {}, describe.__name__
        assert both == {}


@pytest.mark.parametrize("mark", MARKS)
def test_drawn_from_the_other_end(mark: str) -> None:
    whole = next(read_building(mark))
    plain = findings(whole, dict(whole.sections), numbered=False)
    for seed in range(TRIES):
        chance = Random(f"{mark} {seed}")
        some = {wall for wall in whole.sections["walls"] if chance.random() < 0.5}
        turned = reverse(whole.sections, some)
        assert differences(plain, findings(whole, dict(turned), numbered=False)) == {}
