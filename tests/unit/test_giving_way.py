"""A figure of practice gives way to what an adopted code says, and only to a rule that looks at the same thing."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from compliance.findings import Finding, Outcome
from compliance.judging.reasons import GivesWay, WorkingAnswer
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


QUESTION = "    question: wall-thickness\n"


def beside(project: Write, practice: str, code: str = "", more: str = "", wall: str = WALLS) -> dict[str, Finding]:
    """The findings of one wall 12 in thick by a rule of practice and one of a code, as RULE_SET/RULE."""
    sets = RULE_SET.replace("rule_set: trial", "rule_set: county").replace("status: practice", "status: code")
    head = HEAD.replace("[rules.yaml]", "[rules.yaml, county.yaml]") if code else HEAD
    files = {"county.yaml": sets + code} if code else {}
    folder = project(wall, head=head, rules=RULE_SET + practice + more, files=files)
    return {f"{one.rule_set}/{one.rule}": one for one in check_folder(folder).findings}


def thick(limit: str, rule: str = "thick", standing: str = READ, otherwise: str = "engineer") -> str:
    return f"""\
  - id: {rule}
    title: Thickness
    clause: T1
    about: wall
    limits: {{least: {{value: {limit}, kind: length, {standing}}}}}
    check: wall.least_thickness >= least
    otherwise: {otherwise}
    say: Thick enough.
{QUESTION}"""


@pytest.mark.parametrize(("limit", "remark"), [("10 m", Outcome.ENGINEER), ("1 in", Outcome.MEETS)])
def test_what_practice_says_of_a_question_a_code_answers_is_a_remark(
    project: Write, limit: str, remark: Outcome
) -> None:
    found = beside(project, thick(limit), thick("1 in"))
    practice = found["trial/thick"]
    assert found["county/thick"].outcome is Outcome.MEETS
    assert (practice.outcome, practice.remark) == (Outcome.NOT_APPLICABLE, remark)
    assert isinstance(practice.reason, GivesWay) and practice.reason.held is not None
    assert practice.verdict == f"remark: {remark.words}"


def test_practice_never_makes_a_code_milder(project: Write) -> None:
    found = beside(project, thick("1 in"), thick("10 m"))
    assert found["county/thick"].outcome is Outcome.ENGINEER
    assert found["trial/thick"].remark is Outcome.MEETS


def test_where_the_codes_answer_is_open_that_of_practice_is_the_working_answer(project: Write) -> None:
    found = beside(project, thick("10 m"), thick("open", standing=OPEN))
    practice = found["trial/thick"]
    assert found["county/thick"].outcome is Outcome.CONFIRM
    assert practice.outcome is Outcome.ENGINEER and practice.remark is None
    assert practice.beside == (WorkingAnswer("county", "thick", called="Thickness (T1)"),)


def test_a_code_that_leaves_something_to_ask_has_not_answered(project: Write) -> None:
    """One rule of the code holds, another on the same question lacks a value: practice stays."""
    lacks = thick("1 in", rule="other").replace("wall.least_thickness >=", "beam.width >=")
    found = beside(project, thick("10 m"), thick("1 in") + lacks)
    assert found["county/other"].outcome is Outcome.MISSING
    assert found["trial/thick"].outcome is Outcome.ENGINEER


def test_of_answers_that_do_not_bind_the_strictest_decides(project: Write) -> None:
    found = beside(project, thick("1 in"), more=thick("10 m", rule="other"))
    assert found["trial/other"].outcome is Outcome.ENGINEER
    assert found["trial/thick"].remark is Outcome.MEETS


def test_what_rounding_makes_stricter_decides_nothing(project: Write) -> None:
    """Of two guides as strict the one adopted first, whichever leaves less by the last digits of a float."""
    for first, second in (("16.0000000001 in", "16 in"), ("16 in", "16.0000000001 in")):
        found = beside(project, thick("1 in"), more=thick(first, rule="one") + thick(second, rule="two"))
        assert found["trial/two"].outcome is Outcome.NOT_APPLICABLE, (first, second)


def test_what_a_code_asks_for_is_not_asked_again(project: Write) -> None:
    lacks = thick("1 in").replace("wall.least_thickness >=", "beam.width >=")
    found = beside(project, lacks, lacks)
    assert found["county/thick"].outcome is Outcome.MISSING
    assert found["trial/thick"].outcome is Outcome.NOT_APPLICABLE and found["trial/thick"].remark is None
    sooner = beside(project, lacks, lacks.replace("    say:", "    stage: completion\n    say:"))
    assert sooner["trial/thick"].outcome is Outcome.MISSING, "the code asks later than practice does"


def test_a_rule_is_replaced_by_one_that_is_adopted(project: Write) -> None:
    replaced = thick("10 m", rule="old").replace("    say:", "    replaced_by: [county/thick]\n    say:")
    assert beside(project, replaced, thick("1 in"))["trial/old"].outcome is Outcome.NOT_APPLICABLE
    assert beside(project, replaced, thick("1 in", rule="new"))["trial/old"].remark is Outcome.ENGINEER
    assert beside(project, replaced)["trial/old"].outcome is Outcome.ENGINEER


@pytest.mark.parametrize(("name", "count"), [("cob-irc-2021-au", 14), ("cob-irc-2024-bk", 9)])
def test_until_a_wall_has_a_type_one_rule_asks_for_it(project: Write, name: str, count: int) -> None:
    """Nothing meets for that: the type is missing. Of a type that is chosen only its own rules ask."""
    head = HEAD.replace("rules.yaml", name)
    found = {one.rule: one for one in check_folder(project(WALLS, head=head)).findings if one.wall == "W1"}
    waits = [rule.id for rule in read_shipped(name).rules if rule.waits_for and rule.about == "wall"]
    assert found["wall-type"].outcome is Outcome.MISSING and len(waits) == count
    for rule in waits:
        assert found[rule].outcome is Outcome.NOT_APPLICABLE and found[rule].remark is None, rule
    typed = WALLS.replace("W1: {", "W1: {method: C, ", 1)
    asked = {one.rule: one for one in check_folder(project(typed, head=head)).findings if one.wall == "W1"}
    assert asked["wall-height"].outcome is Outcome.CONFIRM
    assert asked["wall-type-reinforcement"].outcome is Outcome.MISSING
    if name == "cob-irc-2021-au":
        assert asked["wall-type-a-category"].outcome is Outcome.NOT_APPLICABLE
