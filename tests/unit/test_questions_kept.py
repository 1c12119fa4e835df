"""One question, one line: every question that rules asked before is still asked, and a wall bears half the findings."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import yaml

from compliance.checking import check_folder
from compliance.findings import Outcome
from compliance.judging.reasons import GivesWay
from compliance.reading.rule_files.rule_library import read_shipped
from tests.conftest import Write

BEFORE = yaml.safe_load(Path(__file__).with_name("questions_before.yaml").read_text(encoding="utf-8"))["rules"]
RENAMED = {
    "nm-14-7-4-adobe/wall-height": "wall-height-by-thickness",
    "nm-14-7-4-ceb/wall-height": "wall-height-by-thickness",
    "nm-14-7-4-rammed-earth/wall-height": "wall-height-by-thickness",
    "cob-practice/free-standing-height": "freestanding-height-to-thickness",
    "cob-irc-2021-au/braced-panel-width": "braced-panel-width",
    "cob-irc-2024-bk/braced-panel-width": "braced-panel-width",
}
"""Rules whose question was parted from one that asks something else."""

SETS = "cob-irc-2021-au irc-2021-soil-and-footings earth-evidence cob-practice engineers-list structural-screening"
HEAD = f"""\
project: {{name: Bare, date: 2026-03-01, units: us, stage: design}}
jurisdiction: {{name: Somewhere, rule_sets: [{SETS.replace(" ", ", ")}]}}
soils: {{S1: {{name: clay subsoil}}, S2: {{name: sand, material: sand}}}}
mixes: {{M1: {{name: cob, parts: {{S1: 1, S2: 2}}, straw: wheat, straw_parts: 0.6}}}}
"""
WALLS = """\
walls:
  W1: {run: {from: [8 in, 8 in], to: [23 ft 4 in, 8 in]}, height: 8 ft, thickness: 16 in, mix: M1}
  W2: {run: {from: [23 ft 4 in, 8 in], to: [23 ft 4 in, 15 ft 4 in]}, height: 8 ft, thickness: 16 in, mix: M1}
  W3: {run: {from: [23 ft 4 in, 15 ft 4 in], to: [8 in, 15 ft 4 in]}, height: 8 ft, thickness: 16 in, mix: M1}
  W4: {run: {from: [8 in, 15 ft 4 in], to: [8 in, 8 in]}, height: 8 ft, thickness: 16 in, mix: M1}
"""
OF_W1_BEFORE = 107
"""Findings of W1 that applied on 2026-11-25 (29533b6), by the same rule sets."""


def test_every_rule_of_before_asks_its_question() -> None:
    now = {f"{name}/{rule.id}": rule.question or "none" for name in BEFORE for rule in read_shipped(name).rules}
    before = {f"{name}/{rule}": question for name, rules in BEFORE.items() for rule, question in rules.items()}
    assert not before.keys() - now.keys()
    asks = {name: RENAMED.get(name, question) for name, question in before.items() if question != "none"}
    assert {name: now[name] for name in asks} == asks


def test_a_wall_of_which_nothing_is_stated_bears_half_the_findings_and_no_question_is_lost(project: Write) -> None:
    """What does not decide says by which rule the same is asked or answered, and that one is no remark itself."""
    found = check_folder(project(WALLS, head=HEAD)).findings
    waits = (Outcome.NOT_APPLICABLE, Outcome.LATER)
    assert 2 * sum(one.wall == "W1" and one.outcome not in waits for one in found) < OF_W1_BEFORE
    by_key = {(one.rule_set, one.rule, one.subject): one for one in found}
    for one in found:
        if isinstance(one.reason, GivesWay) and one.reason.how in ("asks", "first", "stricter", "answers"):
            other = by_key[one.reason.rule_set, one.reason.rule, one.subject]
            assert not isinstance(other.reason, GivesWay) and other.outcome is not Outcome.NOT_APPLICABLE


def test_no_question_is_decided_twice(project: Write) -> None:
    """Of one question about one subject, a guide or practice says nothing beside a code, nor the same as another."""
    found = check_folder(project(WALLS, head=HEAD)).findings
    decided = Counter(
        (one.question, one.about, one.subject)
        for one in found
        if one.question and not one.binds and one.outcome in (Outcome.ENGINEER, Outcome.REVISE, Outcome.MEETS)
    )
    assert decided and set(decided.values()) == {1}
