"""What the corpus shows today against what `known.yaml` lists: that list may only shrink."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import yaml

from tests.buildings.judging import Result, order_breaks

KNOWN = Path(__file__).parent / "known.yaml"
_HEAD = """\
# What the tool gets wrong today, building by building. A test fails when something stands here that is wrong no more
# (delete the line), and when something goes wrong that does not stand here. `python -m tests.buildings --known`
# writes it anew.
#
# misses: dangers that are not named; of a variant `half` that is sound, those named all the same.
# crashes: buildings that end in a traceback.
# problems: buildings refused for more than what they are there to show.
# unspecific: dangers for which the sound building that the file is based on is flagged as well.
# alarms: engineer findings on sound buildings that no `explained` gives a reason for, and explanations nothing needs.
# revisions: findings to revise on sound buildings, of the sets about structure.
# lacking: what these sets lack of a sound building, all of which are described in full.
# order: buildings that do not come off better than those they are milder than.
"""


def gather(results: Sequence[Result]) -> dict[str, dict[str, Any]]:
    """Everything wrong with these results, in the form of `known.yaml`; what is empty is left out."""
    wrong: dict[str, dict[str, Any]] = {
        key: {} for key in ("misses", "crashes", "problems", "unspecific", "alarms", "revisions", "lacking", "order")
    }
    found = {result.building.mark: result for result in results}
    for result in results:
        mark = result.building.mark
        base = found.get(result.building.based_on)
        if base and not result.building.sound:
            unspecific = [str(sought) for sought in result.building.must_find if base.has(sought)]
            wrong["unspecific"] |= {mark: unspecific} if unspecific else {}
        if result.crash:
            wrong["crashes"][mark] = result.crash
        if problems := result.unwanted_problems:
            wrong["problems"][mark] = problems
        if misses := [str(sought) for sought in result.misses]:
            wrong["misses"][mark] = misses
        if result.building.sound:
            if alarms := result.unexplained:
                wrong["alarms"][mark] = alarms
            if revisions := result.revisions:
                wrong["revisions"][mark] = revisions
            if lacking := result.lacking:
                wrong["lacking"][mark] = lacking
    for mark, broken in order_breaks(results).items():
        wrong["order"][mark] = broken
    return {key: value for key, value in wrong.items() if value}


def read_known() -> dict[str, dict[str, Any]]:
    """The list as it stands."""
    return yaml.safe_load(KNOWN.read_text(encoding="utf-8")) or {}


def write_known(results: Sequence[Result]) -> None:
    """Writes the list anew from these results."""
    text = yaml.safe_dump(gather(results), sort_keys=False, allow_unicode=True, width=200)
    KNOWN.write_text(_HEAD + ("" if text == "{}\n" else text), encoding="utf-8")


def compare(known: dict[str, dict[str, Any]], found: dict[str, dict[str, Any]]) -> list[str]:
    """One line for each building that differs: what is new, and what is wrong no more."""
    lines = []
    for key in sorted(known.keys() | found.keys()):
        before, now = known.get(key, {}), found.get(key, {})
        for mark in sorted(before.keys() | now.keys()):
            if before.get(mark) != now.get(mark):
                lines.append(f"{key} of {mark}: listed {before.get(mark)}, found {now.get(mark)}")
    return lines
