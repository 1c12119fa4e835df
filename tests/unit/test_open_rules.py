"""A rule that is not known to stand in the code is never met: what holds is to be confirmed, all else stays."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, partial
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.facts.derive import derive
from compliance.facts.evidence.gathered import gathered
from compliance.findings import Finding, Outcome, Standing
from compliance.judging import judge
from compliance.judging.context import Context
from compliance.judging.examples import run_example
from compliance.linting.lint_rule_set import lint_file
from compliance.model.people import InspectionRecord
from compliance.output.terminal.check_table import check_table
from compliance.reading.project_folder import read_project
from compliance.reading.reference_files.load_tables import read_action_tables
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.reading.reference_files.support_rules import read_support_rules
from compliance.reading.rule_files.rule_library import read_adopted, read_shipped, shipped_rule_sets
from compliance.record import replace
from compliance.report.by_rule import by_rule
from compliance.report.inspection_points import site_points
from compliance.report.limits.open_limits import limits_to_read
from compliance.rules.rule_set import Rule, RuleSet
from compliance.rules.schema import ExampleText
from compliance.units import Writer
from tests.conftest import EXAMPLE, HEAD, RULE_SET, Write
from tests.sentences import sentence
from tests.tries import tries

_RULE = (
    "  - {{id: one, title: One, clause: T1, about: {about}, say: So it is., {block}, "
    "standing: {standing}, source: p. 7}}\n"
)
_LEAST = "limits: {least: {value: 10 in, standing: read, source: trial}}, check: wall.least_thickness >= least"
_TABLE = (
    "tables: {least: {rows: {fact: wall.height, at: [8 ft, 9 ft], worse: larger}, cells: [[10 in], [12 in]], "
    "kind: thickness, standing: read, source: trial}}, check: wall.least_thickness >= least"
)
_TEST = (
    "test: {of: compression, statistic: governs}, limits: {least: {value: 60 psi, standing: read, source: trial}, "
    "governs: {value: lowest, standing: read, source: trial}}, check: result >= least"
)
_COVERS = (
    "covers: {rules: [strong]}, limits: {sets: {value: 1, kind: count, standing: read, source: trial}}, "
    "check: passing >= sets"
)
_INSPECT = "inspect: {stage: trench, point: hold, who: builder, look_at: the trench, record: a photo}"
KINDS = {
    "limit": ("wall", _LEAST),
    "table": ("wall", _TABLE),
    "test": ("mix", _TEST),
    "covers": ("wall", _COVERS),
    "attest": ("wall", "attest: {ask: 'Is it so?'}"),
    "inspect": ("wall", _INSPECT),
}
_PROJECT = """\
walls:
  W1: {{run: {{from: [0 ft, 0 ft], to: [20 ft, 0 ft]}}, height: 8 ft, thickness: {thickness}, mix: M1, bears_load: yes}}
test_sets: {{C1: {{kind: compression, mix: M1}}}}
"""
_ANSWERS = {
    "attest": "attestations: [{{rule: one, answer: {yes}, by: R. Pell, on: 2026-01-01}}]\n",
    "inspect": "inspections: [{{rule: one, passed: {yes}, by: R. Pell, on: 2026-01-01}}]\n",
}
_ROWS = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi]\n"
    "C1,a,M1,,,air,cube,4,4,4,,{load},\n"
)


def _found(project: Write, kind: str, standing: str, holds: bool) -> Finding:
    about, block = KINDS[kind]
    rules = RULE_SET + _RULE.format(about=about, block=block, standing=standing)
    rules += _RULE.format(about="mix", block=_TEST, standing="read").replace("id: one", "id: strong")
    text = _PROJECT.format(thickness="16 in" if holds else "9 in")
    text += _ANSWERS.get(kind, "").format(yes="yes" if holds else "no")
    files = {"lab/compression.csv": _ROWS.format(load=1600 if holds else 800)}
    (found,) = (one for one in check_folder(project(text, HEAD, rules, files)).findings if one.rule == "one")
    assert found.kind == kind
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_what_holds_under_an_open_rule_is_to_be_confirmed(project: Write, kind: str) -> None:
    known, opened = _found(project, kind, "read", True), _found(project, kind, "open", True)
    assert (known.outcome, opened.outcome, opened.verdict) == (Outcome.MEETS, Outcome.CONFIRM, "confirm")
    said, counts = sentence(known), ""
    if kind == "test":
        said, counts = said.removesuffix("; 1 result counts"), "; 1 result counts"
        assert said != sentence(known)
    unknown = "the rule itself is not known to stand in the adopted code; where to read it: p. 7"
    assert sentence(opened) == f"{said}; {unknown}{counts}"
    assert (opened.value, opened.limit, opened.margin) == (known.value, known.limit, known.margin)


@pytest.mark.parametrize("kind", KINDS)
def test_what_does_not_hold_stays_on_the_careful_side(project: Write, kind: str) -> None:
    known, opened = _found(project, kind, "read", False), _found(project, kind, "open", False)
    assert known.outcome is opened.outcome is Outcome.REVISE
    assert sentence(known) == sentence(opened)


def test_a_wall_covered_by_a_test_that_is_itself_open_waits_for_it(project: Write) -> None:
    """The set is no passing one while nobody knows whether the test is asked for."""
    rules = RULE_SET + _RULE.format(about="wall", block=_COVERS, standing="read")
    rules += _RULE.format(about="mix", block=_TEST, standing="open").replace("id: one", "id: strong")
    text = _PROJECT.format(thickness="16 in")
    found = check_folder(project(text, HEAD, rules, {"lab/compression.csv": _ROWS.format(load=1600)})).findings
    (covers,) = (one for one in found if one.kind == "covers")
    assert covers.outcome is Outcome.CONFIRM and "C1" in sentence(covers)


@cache
def _all_examples() -> list[tuple[Rule, ExampleText]]:
    rules = [rule for name in shipped_rule_sets() for rule in read_shipped(name).rules]
    return [(rule, example) for rule in rules for example in rule.examples]


@settings(max_examples=tries(150), deadline=None)
@given(st.data(), st.sampled_from([None, *Standing]))
def test_opening_a_rule_takes_away_meets_and_nothing_else(data: st.DataObject, standing: Standing | None) -> None:
    rule, example = data.draw(st.sampled_from(_all_examples()))
    as_known = run_example(replace(rule, standing=Standing.READ), example).outcome
    found = run_example(replace(rule, standing=standing), example)
    assert not (found.outcome is Outcome.MEETS and found.standing is Standing.OPEN)
    opened = standing is Standing.OPEN and as_known is Outcome.MEETS
    assert found.outcome is (Outcome.CONFIRM if opened else as_known)


@cache
def _example() -> tuple[Context, tuple[RuleSet, ...]]:
    """The example project with every point of its inspection plan recorded as passed."""
    read = read_project(EXAMPLE)
    project = read.project
    adopted = read_adopted(EXAMPLE, project.jurisdiction.rule_sets, project.amendments, read.tree).rule_sets
    passed = [
        InspectionRecord(rule=rule.id, passed=True, by="R. Pell", on=project.project.date)
        for one in adopted
        for rule in one.rules
        if rule.inspect
    ]
    project = project.model_copy(update={"inspections": [*project.inspections, *passed]})
    evidence = gathered(project, read.specimens, read_material_practice())
    tables = partial(read_action_tables, project.project.units)
    facts = derive(project, specimens=read.specimens, rules=read_support_rules(), evidence=evidence, tables=tables)
    return Context(project, facts=facts, specimens=read.specimens, where=read.where, writer=Writer("us")), adopted


def _judged(standing: Callable[[Rule], Standing | None]) -> tuple[Finding, ...]:
    """The example project under rules of these standings."""
    context, adopted = _example()
    rules = [tuple(replace(rule, standing=standing(rule)) for rule in one.rules) for one in adopted]
    return judge(context, [replace(one, rules=of) for one, of in zip(adopted, rules, strict=True)])


@settings(max_examples=tries(5), deadline=None)
@given(st.randoms(use_true_random=False))
def test_no_finding_of_a_project_that_is_open_meets(chance: Random) -> None:
    found = _judged(lambda rule: chance.choice([rule.standing, *Standing]))
    assert not [one for one in found if one.standing is Standing.OPEN and one.outcome is Outcome.MEETS]


def test_nothing_meets_where_every_rule_is_open() -> None:
    found = _judged(lambda _: Standing.OPEN)
    assert {one.kind for one in found if one.outcome is Outcome.CONFIRM} == set(KINDS)
    assert not [one for one in found if one.outcome is Outcome.MEETS]


def test_linting_asks_an_open_rule_for_an_example_that_is_to_be_confirmed(project: Write) -> None:
    examples = "examples: [{given: {answer: yes}, gives: %s}, {given: {answer: no}, gives: revise}]"
    rule = _RULE.format(
        about="wall", block="attest: {ask: 'Is it so?'}, " + examples.replace("%s", "confirm"), standing="open"
    )
    folder = project(rules=RULE_SET + rule)
    assert lint_file(folder / "rules.yaml") == []
    (folder / "rules.yaml").write_text(RULE_SET + rule.replace("{given: {answer: yes}, gives: confirm}, ", ""))
    assert [problem.code for problem in lint_file(folder / "rules.yaml")] == ["example-meets"]


def _checked(project: Write, kind: str) -> Checked:
    about, block = KINDS[kind]
    text = _PROJECT.format(thickness="16 in").replace("test_sets: {C1: {kind: compression, mix: M1}}\n", "")
    text += _ANSWERS.get(kind, "").format(yes="yes")
    return check_folder(project(text, HEAD, RULE_SET + _RULE.format(about=about, block=block, standing="open")))


def test_a_point_of_an_open_rule_that_was_passed_is_not_looked_at_again(project: Write) -> None:
    (point,) = site_points(by_rule(_checked(project, "inspect")))
    assert [one.subject for one in point.passed] == ["W1"] and point.to_look_at == ()


def test_a_yes_under_an_open_rule_is_no_answer_owed_but_a_rule_to_read(project: Write) -> None:
    checked = _checked(project, "attest")
    text = check_table(checked, 100)
    assert "Unanswered" not in text and "Limits and rules to read in the adopted copy" in text
    (waits,) = limits_to_read(by_rule(checked))
    assert (waits.limit, waits.where, waits.what, waits.waiting) == (None, "T1", "One: whether the rule stands", 1)
