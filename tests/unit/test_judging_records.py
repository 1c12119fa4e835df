"""A word given and a look at the work: no answer never meets, the latest about the part itself counts."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from compliance.findings import Finding, Outcome
from compliance.judging.records import waits_for_the_work
from compliance.report.words.missing_words import missing_texts
from tests.conftest import HEAD, RULES, Write
from tests.sentences import sentence

WALL = """\
walls:
  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in, mix: M1,
       openings: {D1: {kind: door, start: 6 ft, sill: 0 ft, width: 3 ft, height: 6 ft 8 in}}}
  W2: {run: {from: [0 ft, 9 ft], to: [20 ft, 9 ft]}, height: 8 ft, thickness: 16 in, mix: M1,
       openings: {D1: {kind: door, start: 6 ft, sill: 0 ft, width: 3 ft, height: 6 ft 8 in}}}
attachments:
  P1: {file: north.png, title: North face, date: 2026-01-02}
  P2: {file: south.png, title: South face}
"""
PICTURES = {"north.png": "picture", "south.png": "picture"}
ATTEST = """\
  - id: drained
    title: Drained
    clause: T2
    about: wall
    attest: {ask: Does water run off?, evidence: [%s]}
    otherwise: engineer
    say: Water runs off.
    standing: read
    source: trial
"""
INSPECT = """\
  - id: seen
    title: First lift
    clause: T3
    about: opening
    inspect: {stage: lifts, point: hold, who: official, look_at: Jambs plumb., record: date}
    say: Somebody looks.
    standing: read
    source: trial
"""


def found(project: Write, rule: str, records: str = "", stage: str = "") -> dict[str, Finding]:
    head = HEAD.replace("2026-12-30}", f"2026-12-30, stage: {stage}}}") if stage else HEAD
    checked = check_folder(project(text=WALL + records, head=head, rules=RULES + rule, files=PICTURES))
    return {one.subject: one for one in checked.findings if one.rule in ("drained", "seen")}


def attested(project: Write, *answers: str, evidence: str = "photo") -> Finding:
    said = "".join(f"  - {{rule: drained, {answer}}}\n" for answer in answers)
    return found(project, ATTEST % evidence, f"attestations:\n{said}" if said else "")["W1"]


def inspected(project: Write, *records: str, rule: str = INSPECT, stage: str = "") -> Finding:
    seen = "".join(f"  - {{rule: seen, {record}}}\n" for record in records)
    return found(project, rule, f"inspections:\n{seen}" if seen else "", stage)["W1.D1"]


YES = "answer: yes, by: B. Uilder, on: 2026-03-01"
NO = "answer: no, by: O. Wner, on: 2026-04-01"
PASSED = "passed: yes, by: O. Fficial, on: 2026-05-01"
FAILED = "passed: no, by: I. Nspector, on: 2026-06-01"


def test_without_an_answer_it_is_missing(project: Write) -> None:
    one = attested(project)
    assert (one.outcome, sentence(one)) == (Outcome.MISSING, "nobody has answered: Does water run off?")
    assert missing_texts(one) == ("rule drained about W1 under attestations: in project.yaml",)


def test_an_answer_about_another_wall_is_none(project: Write) -> None:
    assert attested(project, f"{YES}, about: W2, evidence: [P1]").outcome is Outcome.MISSING


@pytest.mark.parametrize(
    ("asked", "given", "outcome"),
    [
        ("photo", "", Outcome.MISSING),
        ("photo", ", evidence: [P1]", Outcome.MEETS),
        ("photo, document", "", Outcome.MISSING),
        ("none", "", Outcome.MEETS),
        ("photo, none", "", Outcome.MEETS),
        ("", "", Outcome.MEETS),
        ("none", ", evidence: [P1]", Outcome.MEETS),
        ("", ", evidence: [P1]", Outcome.MEETS),
    ],
)
def test_a_yes_meets_with_the_evidence_asked_for(project: Write, asked: str, given: str, outcome: Outcome) -> None:
    one = attested(project, YES + given, evidence=asked)
    assert one.outcome is outcome
    if outcome is Outcome.MISSING:
        words = asked.replace(", ", " or ")
        assert sentence(one) == f"B. Uilder says yes, but the rule asks for {words} as evidence"
        assert missing_texts(one) == ("attestations.0.evidence in project.yaml",)
    else:
        titles = "; evidence: North face" if given else ""
        assert sentence(one) == f"B. Uilder says yes on 2026-03-01{titles}" and not one.missing


@pytest.mark.parametrize("evidence", ["", ", evidence: [P1, P2]"])
@pytest.mark.parametrize("asked", ["photo", "none", ""])
def test_a_no_does_not_meet_with_evidence_or_without(project: Write, asked: str, evidence: str) -> None:
    one = attested(project, NO + evidence, evidence=asked)
    titles = "; evidence: North face, South face" if evidence else ""
    assert (one.outcome, sentence(one)) == (Outcome.ENGINEER, f"O. Wner says no on 2026-04-01{titles}")


def test_what_was_said_is_a_line_of_its_own(project: Write) -> None:
    (line,) = attested(project, f"{NO}, evidence: [P1], note: pond at the corner").steps
    assert (line.says, line.result.value) == ("Does water run off?", False)
    assert line.source == "O. Wner, 2026-04-01; evidence: North face; pond at the corner"
    (line,) = attested(project, f"{YES}, evidence: [P1]").steps
    assert line.result.value is True and line.source == "B. Uilder, 2026-03-01; evidence: North face"


@pytest.mark.parametrize("turned", [False, True])
def test_the_latest_answer_counts(project: Write, turned: bool) -> None:
    """In whatever order the answers stand."""
    early, late = f"{YES}, evidence: [P1]", NO
    answers = (late, early) if turned else (early, late)
    assert sentence(attested(project, *answers)).startswith("O. Wner says no")
    assert attested(project, *[one.replace("2026-04", "2026-02") for one in answers]).outcome is Outcome.MEETS


@pytest.mark.parametrize("turned", [False, True])
def test_of_a_yes_and_a_no_on_one_day_the_no_counts(project: Write, turned: bool) -> None:
    answers = [f"{YES}, evidence: [P1]", NO.replace("2026-04", "2026-03")]
    assert attested(project, *(reversed(answers) if turned else answers)).outcome is Outcome.ENGINEER
    records = [PASSED, FAILED.replace("2026-06", "2026-05")]
    assert inspected(project, *(reversed(records) if turned else records)).outcome is Outcome.REVISE


def test_an_answer_about_the_wall_itself_counts_before_a_later_one_about_all(project: Write) -> None:
    own = NO.replace("2026-04", "2026-02")
    assert attested(project, f"{YES}, evidence: [P1]", f"{own}, about: W1").outcome is Outcome.ENGINEER
    assert attested(project, f"{YES}, about: W1, evidence: [P1]", NO).outcome is Outcome.MEETS


def test_evidence_that_lacks_is_asked_of_the_answer_that_counts(project: Write) -> None:
    one = attested(project, f"{NO}, about: W2", f"{YES}, about: W1")
    assert missing_texts(one) == ("attestations.1.evidence in project.yaml",)


def test_before_the_work_nothing_is_judged(project: Write) -> None:
    one = inspected(project, stage="design")
    assert one.outcome is Outcome.LATER and waits_for_the_work(one)
    plan = "not judged before the work: hold point of the inspection plan, stage lifts"
    assert sentence(one) == f"due at stage during the work: {plan}"


def test_an_inspection_that_is_due_and_has_no_record_is_missing(project: Write) -> None:
    """So it is where a project does not say where it stands: nothing is put off then."""
    for one in (inspected(project), inspected(project, stage="during-the-work")):
        assert one.outcome is Outcome.MISSING and waits_for_the_work(one)
        assert sentence(one) == "no record of this hold point, stage lifts of the work"
        assert missing_texts(one) == ("inspections in project.yaml",)


def test_a_record_that_passed_meets_and_one_that_did_not_does_not(project: Write) -> None:
    one = inspected(project, f"{PASSED}, evidence: [P2]")
    assert one.outcome is Outcome.MEETS
    assert sentence(one) == "O. Fficial recorded passed on 2026-05-01; evidence: South face"
    (line,) = one.steps
    assert (line.says, line.result.value) == ("Jambs plumb.", True)
    one = inspected(project, FAILED)
    assert (one.outcome, sentence(one)) == (Outcome.REVISE, "I. Nspector recorded not passed on 2026-06-01")
    assert one.steps[0].result.value is False
    assert inspected(project, FAILED, rule=f"{INSPECT}    otherwise: engineer\n").outcome is Outcome.ENGINEER


def test_the_latest_record_counts_unless_one_is_of_the_opening_itself(project: Write) -> None:
    """A record of the wall is one of its openings; what was seen of the opening itself comes first."""
    assert inspected(project, FAILED, PASSED).outcome is Outcome.REVISE
    assert inspected(project, f"{FAILED}, about: W1", PASSED).outcome is Outcome.REVISE
    assert inspected(project, FAILED, f"{PASSED}, about: W1.D1").outcome is Outcome.MEETS
    assert waits_for_the_work(inspected(project, f"{PASSED}, about: W2"))


def test_only_an_inspection_to_come_waits_for_the_work(project: Write) -> None:
    """One that does not apply here does not wait, nor does a finding of another kind that says the same."""
    apart = inspected(project, rule=INSPECT.replace("    inspect:", "    when: wall.curved\n    inspect:"))
    assert apart.outcome is Outcome.NOT_APPLICABLE and not waits_for_the_work(apart)
    assert not waits_for_the_work(inspected(project, PASSED))
    question = (ATTEST % "none").replace("Does water", "Not judged before the work. Does water")
    other = found(project, question)["W1"]
    assert not waits_for_the_work(other)


def test_an_answer_where_the_rule_does_not_apply_changes_nothing(project: Write) -> None:
    rule = (ATTEST % "photo").replace("    attest:", "    when: wall.curved\n    attest:")
    for answer in ("", f"attestations: [{{rule: drained, {NO}}}]\n"):
        assert found(project, rule, answer)["W1"].outcome is Outcome.NOT_APPLICABLE
