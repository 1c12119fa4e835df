"""Random plans, each described otherwise: `python -m tests.buildings.described_otherwise 5000 [FIRST] [SECONDS]`.

Prints every plan whose findings differ by more than the names of its walls. Leaves with 1 where any does."""

from __future__ import annotations

import gc
import math
import sys
import time
from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from random import Random
from typing import Any

from tests.buildings.judging import check_building
from tests.buildings.random_plans import random_plan
from tests.buildings.reading import Building
from tests.buildings.transforming import (
    mirror,
    original_mark,
    redraw_arcs,
    reverse,
    rotate,
    shift,
    split_walls,
)

Sections = Mapping[str, Any]
NEAR_EXACT = 1e-6
"""Of a limit: below what nine decimals of an inch leave of a coordinate."""
NEAR_CHORDS = 0.005
"""Of a limit: chords that turn by 15 degrees are shorter than their arc by 0.29 percent."""
TELL_EVERY = 100


@dataclass
class Outcomes:
    """The outcomes of a rule about a subject, or about all piers of a wall; what it leaves of its limit, of each; and
    the rules that decide in its place."""

    outcomes: frozenset[str] = frozenset()
    margins: tuple[float, ...] = ()
    decided_by: frozenset[str] = frozenset()

    def is_near(self, near: float) -> bool:
        """Whether the least margin lies at the limit; of several piers any, for they are not matched one by one."""
        return any(abs(one) <= near for one in self.margins)


Found = dict[tuple[str, str], Outcomes]


def findings(building: Building) -> Found:
    """What is found by rule and subject, pieces under the mark of the wall they are of, and the piers of a wall
    together, for they are numbered from its start. Problems of the building are among it."""
    result = check_building(building)
    assert not result.crash, result.crash
    found: Found = defaultdict(Outcomes)
    for code in result.problems:
        found["problem", code] = Outcomes(frozenset({"problem"}))
    for one in result.findings:
        subject = original_mark(one.subject)
        wall, dot, rest = subject.partition(".")
        pier = dot and rest[:1] == "P" and rest[1:].isdigit()
        there = found[one.rule, f"{wall}.P" if pier else subject]
        if one.outcome != "not-applicable":  # a piece has nothing of what stands on another
            there.outcomes |= {one.outcome}
        margins = there.margins if one.margin is None else (*there.margins, one.margin)
        there.margins = margins if pier or not margins else (min(margins),)
        there.decided_by |= {one.decided_by} - {""}
    return dict(found)


RING = ("engineers-list/closed-ring", "project")


def differences(one: Found, other: Found, near: float) -> dict[tuple[str, str], tuple[Outcomes, Outcomes]]:
    """What is found otherwise, but for what lies within `near` of its limit on both sides, or is decided by a rule
    that does."""
    nothing = Outcomes()

    def is_near(key: tuple[str, str]) -> bool:
        return one.get(key, nothing).is_near(near) and other.get(key, nothing).is_near(near)

    return {
        key: (first, second)
        for key in one.keys() | other.keys()
        if (first := one.get(key, nothing)).outcomes != (second := other.get(key, nothing)).outcomes
        and not is_near(key)
        and not any(is_near((rule, key[1])) for rule in first.decided_by | second.decided_by)
    }


def split(sections: Sections, chance: Random) -> Sections:
    return split_walls(sections, chance, most=4)


def move(sections: Sections, chance: Random) -> Sections:
    moved = shift(rotate(sections, chance.uniform(0, math.tau)), chance.uniform(-50, 50), 7.0)
    return mirror(moved) if chance.random() < 0.5 else moved


def turn_round(sections: Sections, chance: Random) -> Sections:
    return reverse(sections, {wall for wall in sections["walls"] if chance.random() < 0.5})


DESCRIPTIONS: Mapping[str, Callable[[Sections, Random], Sections]] = {
    "in pieces": split, "moved": move, "from the other end": turn_round,
}  # fmt: skip


def differing(number: int) -> list[str]:
    """A line for each way of describing a plan that changes what is found. All exact ways together come first: one by
    one only where they differ."""
    whole = random_plan(number)
    chance = Random(number)
    together: Sections = whole.sections
    for redescribe in DESCRIPTIONS.values():
        together = redescribe(together, chance)
    plain = findings(whole)
    other = findings(replace(whole, sections=together))
    lines = []
    if differences(plain, other, NEAR_EXACT):
        lines += [f"plan {number} together: {differences(plain, other, NEAR_EXACT)}"]
        for name, redescribe in DESCRIPTIONS.items():
            alone = findings(replace(whole, sections=redescribe(whole.sections, Random(number))))
            if found := differences(plain, alone, NEAR_EXACT):
                lines.append(f"plan {number} {name}: {found}")
    chords = redraw_arcs(whole.sections)
    if chords["walls"].keys() != whole.sections["walls"].keys():
        drawn = findings(replace(whole, sections=chords))
        if found := differences(plain, drawn, NEAR_CHORDS):
            lines.append(f"plan {number} as chords: {found}")
    return lines


def differing_or_crash(number: int) -> list[str]:
    """As `differing`; a crash is a line of its own, so that the plans after it are still tried."""
    try:
        return differing(number)
    except AssertionError as error:
        return [f"plan {number} crashes: {error}"]


def main(arguments: list[str]) -> int:
    """Exit code 1 where any plan differs."""
    count, first, seconds = (*map(int, arguments), *(100, 0, 10**9)[len(arguments) :])
    gc.set_threshold(200_000, 20, 20)  # as the tool itself does
    start, wrong = time.monotonic(), 0
    for number in range(first, first + count):
        if time.monotonic() - start > seconds:
            print(f"ended after {number - first} plans")
            break
        for line in differing_or_crash(number):
            wrong += 1
            print(line, flush=True)
        if (number - first + 1) % TELL_EVERY == 0:
            print(f"{number - first + 1} plans, {wrong} differ, {time.monotonic() - start:.0f} s", flush=True)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
