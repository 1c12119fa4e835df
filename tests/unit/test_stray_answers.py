"""An answer belongs to one rule of one rule set and to something that is there, or the project is refused."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from compliance.findings import Outcome
from compliance.problems import ProblemsFound
from compliance.report.words.missing_words import missing_texts
from tests.conftest import HEAD, RULES, WALLS, Write

ASK = """\
  - id: drained
    title: Drained
    clause: T2
    about: wall
    attest: {ask: Does water run off?, evidence: [none]}
    say: Water runs off.
    standing: read
    source: trial
  - id: seen
    title: First lift
    clause: T3
    about: wall
    inspect: {stage: lifts, point: hold, who: official, look_at: Jambs plumb., record: date}
    say: Somebody looks.
    standing: read
    source: trial
"""
FIRST = RULES + ASK
SECOND = (FIRST.replace("rule_set: trial", "rule_set: other").replace("Trial rules", "Other rules")).replace(
    "Does water run off?", "Does water run in?"
)
BOTH = HEAD.replace("[rules.yaml]", "[rules.yaml, other.yaml]")
GIVEN = "by: B. Uilder, on: 2026-01-01"
YES = f"answer: yes, {GIVEN}"


def problems(project: Write, text: str, head: str = HEAD) -> list[tuple[str, str]]:
    """Code and advice of each problem of the project with these answers."""
    with pytest.raises(ProblemsFound) as found:
        check_folder(project(text=WALLS + text, head=head, rules=FIRST, files={"other.yaml": SECOND}))
    return [(one.code, one.instead) for one in found.value.problems]


@pytest.mark.parametrize(
    ("text", "code", "advice"),
    [
        (f"attestations:\n  - {{rule: draned, {YES}}}\n", "answer-rule", "did you mean drained?"),
        (f"attestations:\n  - {{rule: other/drained, {YES}}}\n", "answer-rule", "did you mean trial/drained?"),
        (f"attestations:\n  - {{rule: seen, {YES}}}\n", "answer-rule", "write it under inspections:"),
        (f"attestations:\n  - {{rule: thick-enough, {YES}}}\n", "answer-rule",
         "remove it: the rule is checked by computation"),
        (f"attestations:\n  - {{rule: drained, about: w1, {YES}}}\n", "answer-mark", "did you mean W1?"),
        (f"attestations:\n  - {{rule: drained, about: M1, {YES}}}\n", "answer-mark", "known: W1"),
        (f"inspections:\n  - {{rule: seen, about: W2, passed: yes, {GIVEN}}}\n", "answer-mark", "known: W1"),
    ],
)  # fmt: skip
def test_a_stray_answer_is_refused_with_what_to_write(project: Write, text: str, code: str, advice: str) -> None:
    assert problems(project, text) == [(code, advice)]


def test_a_misspelled_no_does_not_leave_a_general_yes_standing(project: Write) -> None:
    text = f"attestations:\n  - {{rule: drained, {YES}}}\n  - {{rule: drained, about: w1, answer: no, {GIVEN}}}\n"
    assert [code for code, _ in problems(project, text)] == ["answer-mark"]


def test_one_id_in_two_sets_must_be_named_with_its_set(project: Write) -> None:
    advice = "write trial/drained or other/drained; give each its own entry"
    assert problems(project, f"attestations:\n  - {{rule: drained, {YES}}}\n", BOTH) == [("answer-ambiguous", advice)]


def test_a_yes_to_one_set_is_none_to_the_other(project: Write) -> None:
    text = WALLS + f"attestations:\n  - {{rule: other/drained, {YES}}}\n"
    checked = check_folder(project(text=text, head=BOTH, rules=FIRST, files={"other.yaml": SECOND}))
    found = {one.rule_set: one for one in checked.findings if one.rule == "drained"}
    assert (found["trial"].outcome, found["other"].outcome) == (Outcome.MISSING, Outcome.MEETS)
    assert missing_texts(found["trial"]) == ("rule trial/drained about W1 under attestations: in project.yaml",)


def test_answers_to_a_rule_that_is_dropped_may_stay(project: Write) -> None:
    dropped = (
        "drops:\n  - {rule_set: trial, rule: drained, reason: not asked for here, by: B. Uilder, on: 2026-01-01,"
        " authority: county council}\n"
    )
    text = WALLS + f"attestations:\n  - {{rule: drained, {YES}}}\namendments: [local.yaml]\n"
    checked = check_folder(project(text=text, rules=FIRST, files={"local.yaml": dropped}))
    assert not [one for one in checked.findings if one.rule == "drained"]
