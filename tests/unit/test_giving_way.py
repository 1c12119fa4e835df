"""A figure of practice gives way to what an adopted code says, and only to a rule that looks at the same thing."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from compliance.findings import Outcome
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.rules.rule_set import Rule
from tests.conftest import HEAD, RULE_SET, WALLS, Write

THICKNESS = ("thickness", "height_to_thickness")

PRACTICE = """\
  - id: slender
    title: Slenderness
    clause: P1
    about: wall
    limits: {most: {value: 5, kind: ratio, standing: read, source: trial}}
    check: wall.height_to_thickness <= most
    say: Not slender.
    gives_way_to: [wall-height-to-thickness]
"""
CODE = """\
  - id: ratio
    title: Ratio
    clause: C1
    about: wall
    limits: {most: {value: VALUE, kind: ratio, standing: STANDING, HOW}}
    check: wall.height_to_thickness <= most
    say: Within the code.
    question: QUESTION
"""


def reads_thickness(rule: Rule) -> bool:
    assert rule.check is not None
    names = {*rule.check.names, *(table.rows.fact for table in rule.tables.values() if table.rows)}
    return any(name.endswith(THICKNESS) for name in names)


def test_no_shipped_rule_gives_way_to_a_bare_height() -> None:
    """A code's greatest height says nothing of how thin a wall of that height may be."""
    library = [rule for name in shipped_rule_sets() for rule in read_shipped(name).rules]
    questions = {one for rule in library for one in rule.gives_way_to}
    assert questions
    answering = [rule for rule in library if rule.question in questions]
    assert answering
    assert [f"{one.rule_set}/{one.id}" for one in answering if not reads_thickness(one)] == []


READ = "standing: read, source: county"
OPEN = "standing: open, read_in: Table 1"


@pytest.mark.parametrize(
    ("question", "value", "how", "outcome"),
    [
        ("wall-height-to-thickness", "8", READ, Outcome.NOT_APPLICABLE),
        ("wall-height-to-thickness", "5.5", READ, Outcome.NOT_APPLICABLE),
        ("wall-height-to-thickness", "open", OPEN, Outcome.REVISE),
        ("wall-height", "8", READ, Outcome.REVISE),
    ],
)
def test_practice_gives_way_to_a_known_answer_of_a_code(
    project: Write, question: str, value: str, how: str, outcome: Outcome
) -> None:
    """Of a wall six times as high as thick: practice allows five, the code what it says, where it says it."""
    code = CODE.replace("VALUE", value).replace("standing: STANDING, HOW", how).replace("QUESTION", question)
    sets = RULE_SET.replace("rule_set: trial", "rule_set: county").replace("status: practice", "status: code")
    head = HEAD.replace("[rules.yaml]", "[rules.yaml, county.yaml]")
    folder = project(WALLS, head=head, rules=RULE_SET + PRACTICE, files={"county.yaml": sets + code})
    found = {one.rule: one.outcome for one in check_folder(folder).findings}
    assert found["slender"] is outcome


def test_practice_stands_where_no_code_is_adopted(project: Write) -> None:
    found = {one.rule: one.outcome for one in check_folder(project(WALLS, rules=RULE_SET + PRACTICE)).findings}
    assert found["slender"] is Outcome.REVISE


def test_practice_stands_beside_another_practice(project: Write) -> None:
    sets = RULE_SET.replace("rule_set: trial", "rule_set: other")
    code = CODE.replace("VALUE", "8").replace("standing: STANDING, HOW", READ)
    code = code.replace("QUESTION", "wall-height-to-thickness")
    head = HEAD.replace("[rules.yaml]", "[rules.yaml, other.yaml]")
    folder = project(WALLS, head=head, rules=RULE_SET + PRACTICE, files={"other.yaml": sets + code})
    assert {one.rule: one.outcome for one in check_folder(folder).findings}["slender"] is Outcome.REVISE
