"""Questions that rules answer: one list, the same name for the same question about the same subject everywhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from compliance.cli import app
from compliance.facts.catalogue import ABOUT_LABELS, ABOUTS, FACTS
from compliance.linting.lint_rule_set import lint_file
from compliance.reading.reference_files.support_rules import read_reference
from compliance.reading.rule_files.question_list import read_questions
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.rules.question import OWN, answered_about
from compliance.rules.rule_set import Rule
from tests.conftest import ROOT, RULES
from tests.each import for_each

QUESTIONS = read_questions()


def test_every_shipped_rule_has_a_question() -> None:
    shipped = (rule for name in shipped_rule_sets() for rule in read_shipped(name).rules)
    assert [f"{rule.rule_set}/{rule.id}" for rule in shipped if not rule.question] == []


def asked() -> list[Rule]:
    return [rule for name in shipped_rule_sets() for rule in read_shipped(name).rules if rule.question]


@for_each(["all"], lambda _: [(f"{rule.rule_set}/{rule.id}", rule) for rule in asked()])
def test_every_question_is_in_the_list_and_asked_about_its_subject(rule: Rule) -> None:
    assert rule.question in QUESTIONS
    assert answered_about(rule) == QUESTIONS[rule.question].about


def test_every_question_of_the_list_is_asked_by_a_rule() -> None:
    covered = {rule.covers.question for rule in asked() if rule.covers and rule.covers.question}
    assert set(QUESTIONS) == {rule.question for rule in asked()}
    assert covered <= set(QUESTIONS)


def test_the_list_says_of_each_what_it_asks_and_about_what() -> None:
    listed = read_reference("questions")["questions"]
    assert all(set(one) == {"about", "asks"} for one in listed.values())
    assert {one.about for one in QUESTIONS.values()} <= set(ABOUTS)
    assert not [name for name in QUESTIONS if name.startswith(OWN)]
    assert len({one.asks for one in QUESTIONS.values()}) == len(QUESTIONS), "two questions that ask the same"


def test_the_developers_page_has_the_list() -> None:
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = page[page.index("| asked about | questions |") :].partition("\n\n")[0]
    rows = re.findall(r"^\| ([a-z -]+) \| (.+) \|$", table, re.MULTILINE)
    written = {subject: re.findall(r"`([a-z0-9-]+)`", questions) for subject, questions in rows if "`" in questions}
    by_subject: dict[str, list[str]] = {}
    for one in QUESTIONS.values():
        by_subject.setdefault(ABOUT_LABELS[one.about], []).append(one.id)
    assert written == by_subject


def test_the_command_prints_them() -> None:
    printed = CliRunner().invoke(app, ["rules", "questions"])
    assert printed.exit_code == 0
    assert all(f"  {name}: " in printed.stdout for name in QUESTIONS)


EXAMPLES = """\
    examples:
      - {given: {wall.least_thickness: 10 in}, gives: meets}
      - {given: {wall.least_thickness: 9 in}, gives: revise}
"""


@pytest.mark.parametrize(
    ("question", "codes"),
    [
        ("wall-thickness", []),
        ("wall-thikness", ["question-unknown"]),
        ("own-look-of-the-wall", []),
        ("pier-width", ["question-subject"]),
    ],
)
def test_linting_names_a_question_that_no_other_rule_would_answer(
    tmp_path: Path, question: str, codes: list[str]
) -> None:
    path = tmp_path / "rules.yaml"
    path.write_text(f"{RULES}    question: {question}\n{EXAMPLES}", encoding="utf-8")
    found = lint_file(path)
    assert [problem.code for problem in found] == codes
    assert all(problem.place.line == RULES.count("\n") + 1 for problem in found)


COB_SETS = (
    "cob-irc-2021-au", "irc-2021-soil-and-footings", "earth-evidence", "cob-practice", "engineers-list",
    "structural-screening",
)  # fmt: skip
OTHER_QUESTIONS = {
    ("wall", "wall.height"): "for its wall type, for the ground of the height table, and with no support at the top",
    ("wall", "wall.height_to_thickness"): "with and without support at the top",
    ("site", "site.soil_bearing"): "what is presumed without a test, and the least that needs no engineer",
    ("opening", "opening.width"): "any opening, and those spanned by an arch of earth",
}
"""Facts that rules of several sets compare for different questions, and what sets the questions apart."""


def test_rules_that_compare_the_same_facts_answer_the_same_question() -> None:
    rules = [rule for name in COB_SETS for rule in read_shipped(name).rules if rule.check]
    found: dict[tuple[str, ...], list[Rule]] = {}
    for rule in rules:
        facts = sorted(rule.check.names & FACTS.keys()) if rule.check else []
        if facts:
            found.setdefault((rule.about, *facts), []).append(rule)
    several = {key: group for key, group in found.items() if len({rule.rule_set for rule in group}) > 1}
    parted = {
        key for key, group in several.items()
        if len({rule.question for rule in group}) > 1 or not group[0].question
    }  # fmt: skip
    assert parted == set(OTHER_QUESTIONS)
