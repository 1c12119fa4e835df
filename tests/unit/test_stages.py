"""Stages: what is not due yet is later, never missing; what is wrong shows at every stage, and nothing meets by it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.editing.assignments import edit_of, read_assignments
from compliance.findings import Finding, Outcome
from compliance.judging.conditions.due import as_judged, due_at
from compliance.judging.reasons import Contradicted, Lacks, Overdue
from compliance.problems import ProblemsFound
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.rules.schema import POINT_DUE
from compliance.stages import Stage
from tests.buildings.reading import list_buildings
from tests.conftest import EXAMPLE, HEAD, ROOT, RULE_SET, RULES, WALLS, Write
from tests.sentences import sentence

STAGES = list(Stage)
FINAL = (Outcome.ENGINEER, Outcome.REVISE, Outcome.MEETS)


@cache
def example(stage: Stage) -> Checked:
    return check_folder(EXAMPLE, stage=stage)


def named(findings: Iterable[Finding]) -> dict[tuple[str, str, str, str], Finding]:
    return {(one.rule_set, one.rule, one.about, one.subject): one for one in findings}


@pytest.mark.parametrize("stage", STAGES)
def test_engineer_and_revise_and_meets_are_the_same_at_every_stage(stage: Stage) -> None:
    all_due, here = named(example(Stage.COMPLETION).findings), named(example(stage).findings)
    assert list(here) == list(all_due)
    for key, one in here.items():
        assert (one.outcome in FINAL) == (all_due[key].outcome in FINAL)
        if one.outcome in FINAL:
            assert one.outcome is all_due[key].outcome and one.reason == all_due[key].reason


@pytest.mark.parametrize("stage", STAGES)
def test_what_is_later_was_absent_and_is_neither_met_nor_not_applicable(stage: Stage) -> None:
    all_due, here = named(example(Stage.COMPLETION).findings), named(example(stage).findings)
    for key, one in here.items():
        if one.outcome is Outcome.LATER:
            assert all_due[key].outcome in (Outcome.MISSING, Outcome.CONFIRM)
            assert not stage.asks_for(one.stage)
        else:
            assert one.outcome is all_due[key].outcome
    assert not any(one.outcome is Outcome.LATER for one in example(Stage.COMPLETION).findings)


@given(st.sampled_from(STAGES), st.sampled_from(STAGES))
def test_a_later_stage_never_asks_for_less(one: Stage, other: Stage) -> None:
    first, second = sorted((one, other), key=lambda stage: stage.rank)
    later = [{key for key, each in named(example(stage).findings).items() if each.outcome is Outcome.LATER}
             for stage in (first, second)]  # fmt: skip
    assert later[0] >= later[1]


def test_every_finding_is_told_as_judged_again() -> None:
    """Whatever was put off is the same again once all is due."""
    judged = tuple(map(as_judged, example(Stage.DESIGN).findings))
    assert due_at(judged, Stage.COMPLETION, "project.yaml") == example(Stage.COMPLETION).findings


BY_STAGE = (
    RULE_SET
    + """\
  - id: thick-enough
    title: Thickness
    clause: T1
    about: wall
    stage: completion
    limits: {least: {value: 10 in, standing: read, source: trial}}
    check: wall.least_thickness >= least
    otherwise: engineer
    say: Thick enough.
  - id: drained
    title: Drained
    clause: T2
    about: wall
    stage: before-placing
    attest: {ask: Does water run off?, evidence: [none]}
    say: Water runs off.
    standing: read
    source: trial
  - id: braced
    title: Braced
    clause: T3
    about: wall
    stage: application
    check: wall.braces
    say: It braces.
  - id: always
    title: Bearing
    clause: T4
    about: wall
    check: wall.bears_load or not wall.bears_load
    say: Known.
"""
)


def outcomes(folder: Path, stage: Stage | None = None) -> dict[str, Outcome]:
    return {one.rule: one.outcome for one in check_folder(folder, stage=stage).findings}


def test_a_wall_too_thin_is_named_at_the_first_stage_though_its_rule_is_due_at_the_last(project: Write) -> None:
    thin = project(text=WALLS.replace("16 in", "6 in"), rules=BY_STAGE)
    for stage in STAGES:
        assert outcomes(thin, stage)["thick-enough"] is Outcome.ENGINEER
        assert not check_folder(thin, stage=stage).all_meet


def test_what_lacks_is_later_until_it_is_due(project: Write) -> None:
    folder = project(rules=BY_STAGE)
    for stage in STAGES:
        found = outcomes(folder, stage)
        for rule, due in (("drained", Stage.BEFORE_PLACING), ("braced", Stage.APPLICATION)):
            assert found[rule] is (Outcome.MISSING if stage.asks_for(due) else Outcome.LATER)
        assert found["always"] is Outcome.MISSING  # names no stage: nothing puts it off


def test_a_project_that_does_not_say_where_it_stands_is_asked_for_all(project: Write) -> None:
    folder = project(rules=BY_STAGE)
    assert outcomes(folder) == outcomes(folder, Stage.COMPLETION)
    assert check_folder(folder).reached.stated is None


def test_everything_due_meets_with_the_rest_to_come_and_not_where_nothing_meets(project: Write) -> None:
    known = WALLS.replace("mix: M1}", "mix: M1, bears_load: yes}")
    folder = project(text=known, head=HEAD.replace("2026-12-30}", "2026-12-30, stage: design}"), rules=BY_STAGE)
    assert check_folder(folder).all_meet
    assert not check_folder(folder, stage=Stage.APPLICATION).all_meet
    only = RULE_SET + BY_STAGE[BY_STAGE.index("  - id: drained") : BY_STAGE.index("  - id: braced")]
    assert not check_folder(project(text=known, rules=only), stage=Stage.DESIGN).all_meet


def test_a_no_is_no_less_wrong_before_it_is_due(project: Write) -> None:
    no = "attestations: [{rule: drained, answer: no, by: A, on: 2026-03-01}]\n"
    assert outcomes(project(text=WALLS + no, rules=BY_STAGE), Stage.EARTH)["drained"] is Outcome.REVISE


def test_a_yes_that_something_speaks_against_is_missing_at_every_stage(project: Write) -> None:
    """Dated after the project itself."""
    yes = "attestations: [{rule: drained, answer: yes, by: A, on: 2027-03-01}]\n"
    for stage in STAGES:
        found = named(check_folder(project(text=WALLS + yes, rules=BY_STAGE), stage=stage).findings)
        one = found["trial", "drained", "wall", "W1"]
        assert one.outcome is Outcome.MISSING and isinstance(one.reason, Contradicted)


POINTS = RULES + "".join(
    f"""\
  - id: {name}
    title: {name}
    clause: T9
    about: {about}
    inspect: {{stage: {stage}, point: hold, who: official, look_at: It., record: date}}
    say: Somebody looks.
    standing: read
    source: trial
"""
    for name, about, stage in (("see-trench", "footing", "trench"), ("see-first", "wall", "first-lift"),
                               ("see-beam", "wall", "bond-beam"))
)  # fmt: skip
STANDING = HEAD.replace("2026-12-30}", "2026-12-30, stage: design}") + "footings: {F1: {kind: concrete}}\n"
ON_F1 = WALLS.replace("mix: M1}", "mix: M1, footing: F1}")
PASSED = "inspections: [{{rule: {rule}, about: W1, passed: {passed}, by: A, on: 2026-03-01}}]\n"


def test_a_hold_point_passed_without_its_earlier_one_is_a_finding_at_every_stage(project: Write) -> None:
    text = ON_F1 + PASSED.format(rule="see-beam", passed="yes")
    found = named(check_folder(project(text=text, head=STANDING, rules=POINTS)).findings)
    for rule, about, subject in (("see-trench", "footing", "F1"), ("see-first", "wall", "W1")):
        one = found["trial", rule, about, subject]
        assert one.outcome is Outcome.MISSING and isinstance(one.reason, Overdue)
        assert sentence(one) == "no record of it, and see-beam of W1, a later point, was passed on 2026-03-01"


@pytest.mark.parametrize("records", [
    "",
    PASSED.format(rule="see-trench", passed="yes").replace("W1", "F1"),
    PASSED.format(rule="see-first", passed="no"),
    PASSED.format(rule="see-first", passed="yes").replace("about: W1", "about: W2"),
])  # fmt: skip
def test_a_hold_point_waits_where_no_later_one_of_its_wall_was_passed(project: Write, records: str) -> None:
    second = "  W2: {run: {from: [0 ft, 30 ft], to: [20 ft, 30 ft]}, height: 8 ft, thickness: 16 in, mix: M1}\n"
    found = named(check_folder(project(text=ON_F1 + second + records, head=STANDING, rules=POINTS)).findings)
    assert found["trial", "see-beam", "wall", "W1"].outcome is Outcome.LATER
    assert not isinstance(found["trial", "see-first", "wall", "W1"].reason, Overdue)


def test_work_that_has_begun_is_asked_as_before_placing_whatever_the_project_says(project: Write) -> None:
    placed = WALLS.replace("mix: M1}", "mix: M1, placed_from: 2026-05-05}")
    head = HEAD.replace("2026-12-30}", "2026-12-30, stage: earth}")
    reached = check_folder(project(text=placed, head=head, rules=BY_STAGE)).reached
    assert (reached.stage, reached.stated) == (Stage.BEFORE_PLACING, Stage.EARTH)
    assert reached.because == "W1 was placed from 2026-05-05"
    coming = placed.replace("2026-05-05", "2027-05-05")
    reached = check_folder(project(text=coming, head=head, rules=BY_STAGE)).reached
    assert (reached.stage, reached.because) == (Stage.DESIGN, "walls are described")
    looked = WALLS + PASSED.format(rule="see-first", passed="yes")
    reached = check_folder(project(text=looked, head=head, rules=POINTS)).reached
    assert (reached.stage, reached.because) == (Stage.BEFORE_PLACING, "see-first was inspected on 2026-03-01")


def test_walls_that_are_described_are_asked_as_a_design(project: Write) -> None:
    """Some dangers show only as what is missing: a gable without its height. A plan cannot put them off as earth."""
    rules = BY_STAGE.replace("stage: application", "stage: design")
    assert outcomes(project(rules=rules), Stage.EARTH)["braced"] is Outcome.MISSING


def test_a_day_that_speaks_against_another_is_not_put_off() -> None:
    """T4 was shown after W5 would have been placed: the fact lacks, and says why."""
    edit = edit_of(read_assignments(["W5.placed_from=2026-05-05"]))
    one = named(check_folder(EXAMPLE, edit, stage=Stage.EARTH).findings)[
        "cob-irc-2021-au", "shrinkage-shown", "set", "T4"
    ]
    assert one.stage is Stage.BEFORE_PLACING and one.outcome is Outcome.MISSING
    assert isinstance(one.reason, Lacks) and one.reason.because


def test_every_shipped_rule_set_says_when_its_answers_are_due() -> None:
    for name in shipped_rule_sets():
        text = yaml.load((ROOT / "rulesets" / f"{name}.yaml").read_bytes(), yaml.CSafeLoader)
        assert text.get("stage") or text.get("extends"), name
        for rule in read_shipped(name).rules:
            if rule.inspect:
                assert rule.stage.asks_for(POINT_DUE[rule.inspect.stage]), f"{name}/{rule.id}"


def test_dangers_of_the_corpus_that_show_as_what_is_missing_are_due_with_the_plan() -> None:
    """So no stage that a described building can be asked at puts them off."""
    sought = [
        one for building in list_buildings("dangerous") for one in building.must_find if "missing" in one.outcomes
    ]
    assert len(sought) >= 3
    for one in sought:
        rule_set, _, name = one.name.partition("/")
        rules = {rule.id: rule for rule in read_shipped(rule_set).rules}
        assert Stage.DESIGN.asks_for(rules[name].stage), one.name


def test_rules_that_follow_others_name_rules_that_are_there() -> None:
    read = {name: read_shipped(name) for name in shipped_rule_sets()}
    known = {f"{name}/{rule.id}": rule for name, one in read.items() for rule in one.rules}
    follows = [(rule, path) for rule in known.values() for path in rule.follows]
    assert follows
    for rule, path in follows:
        assert path in known and known[path].about == rule.about


def test_a_point_cannot_be_due_before_its_work(project: Write) -> None:
    early = POINTS.replace("    about: footing\n", "    about: footing\n    stage: design\n")
    with pytest.raises(ProblemsFound) as found:
        check_folder(project(head=STANDING, text=ON_F1, rules=early))
    assert [one.code for one in found.value.problems] == ["rule-stage"]


def test_a_stage_that_is_none_is_refused_by_name(project: Write) -> None:
    with pytest.raises(ProblemsFound) as found:
        check_folder(project(head=HEAD.replace("2026-12-30}", "2026-12-30, stage: later}")))
    assert "before-placing" in str(found.value.problems[0])


def test_the_stage_can_be_tried_as_any_field() -> None:
    edit = edit_of(read_assignments(["project.stage=completion"]))
    assert check_folder(EXAMPLE, edit).reached.stage is Stage.COMPLETION
