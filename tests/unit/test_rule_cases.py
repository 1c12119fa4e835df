"""The case files of the shipped rule sets: facts in, outcome out.

Every case is run; every limit that a comparison uses has a case exactly at it, just inside and just outside, in both
systems of units; and a rule with one relation, sign, number, limit, cell or word changed fails a case, so that none of
them is idle.

A case of a test rule gives the result and how many specimens count. Limits that pick the specimens (age, shape, drying,
rank, height to width) stand in no comparison; they are tried with rows of lab tables, in `test_rule_truth.py`.
"""

from __future__ import annotations

from collections.abc import Iterator

from compliance.files.shipped import shipped
from compliance.judging.examples import filled_in, run_example
from compliance.reading.rule_files.rule_cases import cases_beside
from compliance.reading.rule_files.rule_library import shipped_rule_sets
from compliance.rules.case_schema import CaseText
from compliance.rules.formulas.nodes import Compare, Name
from compliance.rules.rule_set import Rule
from tests.each import for_each
from tests.rule_cases import (
    Cell,
    case_file,
    cases_of,
    comparisons,
    in_two_systems,
    known_cells,
    names,
    position,
    rules_of,
)
from tests.rule_changes import changes
from tests.rule_changes_unseen import UNSEEN
from tests.sentences import sentence

SIDES = ("at", "inside", "outside")


def with_cases(name: str) -> list[tuple[str, Rule]]:
    return [(rule.id, rule) for rule in rules_of(name).values() if rule.id in cases_of(name)]


def that_compare(_: str) -> list[tuple[str, Rule]]:
    """Those of all sets: some have none."""
    rules = [rule for name in shipped_rule_sets() for rule in rules_of(name).values()]
    return [(f"{rule.rule_set}/{rule.id}", rule) for rule in rules if any(comparisons(rule))]


@for_each(shipped_rule_sets(), with_cases)
def test_every_case_gives_what_it_says(rule: Rule) -> None:
    found = [(case, run_example(rule, case)) for case in cases_of(rule.rule_set)[rule.id]]
    failed = [
        f"{case.name}: {one.outcome.value}, {sentence(one)}" for case, one in found if one.outcome is not case.outcome
    ]
    assert not failed, "\n".join(failed)


def test_every_case_is_of_a_rule_and_bears_a_name_of_its_own() -> None:
    for name in shipped_rule_sets():
        file = case_file(name)
        assert file.cases_of == name
        assert {case.rule for case in file.cases} <= set(rules_of(name)), name
        named = [(case.rule, case.name) for case in file.cases]
        assert len(set(named)) == len(named), [one for one in named if named.count(one) > 1]


def test_every_case_file_is_beside_a_rule_set_and_is_none_itself() -> None:
    files = {path.stem for path in (shipped("rulesets") / "cases").glob("*")}
    assert files == set(shipped_rule_sets())
    assert cases_beside(shipped("rulesets") / "cob-practice.yaml").is_file()


def test_every_rule_that_compares_has_a_case() -> None:
    rules = [rule for name in shipped_rule_sets() for rule in rules_of(name).values()]
    formulas = [rule for rule in rules if rule.check or rule.when]
    assert len(formulas) > 300
    without = [f"{rule.rule_set}/{rule.id}" for rule in formulas if rule.id not in cases_of(rule.rule_set)]
    assert not without


@for_each(["all"], that_compare)
def test_every_limit_has_cases_at_it_just_inside_and_just_outside(rule: Rule) -> None:
    for node in comparisons(rule):
        limits = [name for name in names(node) if name in rule.limits or name in rule.tables]
        if limits:
            assert not set(lacking(rule, node)), f"{rule.id}: {' '.join(limits)}"


def lacking(rule: Rule, node: Compare) -> Iterator[tuple[Cell | None, str, str]]:
    """Each cell, side and system of units without a case. Inside a count of at most none there is nothing."""
    cases = cases_of(rule.rule_set).get(rule.id, [])
    found = [one for case in cases if (one := position(rule, case, node)) is not None]
    sides = ("at", "outside") if node.relation in ("==", "!=") or at_most_none(rule, node) else SIDES
    for cell in known_cells(rule, node):
        for side in sides:
            there = [one for one in found if one.side == side and cell in (None, one.cell)]
            for system in ("us", "si") if in_two_systems(rule, node) else ("any",):
                if not any(system == "any" or system in one.systems for one in there):
                    yield cell, side, system


def at_most_none(rule: Rule, node: Compare) -> bool:
    limit = rule.limits.get(node.right.name) if isinstance(node.right, Name) else None
    return limit is not None and limit.kind == "count" and limit.value == 0 and node.relation == "<="


@for_each(shipped_rule_sets(), with_cases)
def test_a_rule_changed_in_one_place_fails_a_case(rule: Rule) -> None:
    """A change that no case can see is listed with its reason, and no other is listed."""
    assert set(changes_that_pass(rule)) == set(UNSEEN.get(f"{rule.rule_set}/{rule.id}", {}))


def changes_that_pass(rule: Rule) -> Iterator[str]:
    cases = list(cases_of(rule.rule_set)[rule.id])
    for says, change in changes(with_all_filled(rule, cases)):
        for place, case in enumerate(cases):
            if outcome(change(filled_in(rule, case)), case) != case.gives:
                cases = cases[place:] + cases[:place]  # What failed is likely to fail with the next change too.
                break
        else:
            yield says


def with_all_filled(rule: Rule, cases: list[CaseText]) -> Rule:
    """The rule with all its open limits filled by one case or another."""
    filled = rule
    for case in cases:
        filled = filled_in(filled, case)
    return filled


def outcome(rule: Rule, case: CaseText) -> str:
    """What the case gives; "refused" by a formula so changed that its kinds no longer fit, which would not load."""
    try:
        return run_example(rule, case.model_copy(update={"limits": {}})).outcome.value
    except ValueError:
        return "refused"
