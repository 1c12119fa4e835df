"""What holds of every rule set that ships: sources named, examples true, open limits never taken for known ones."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest
import yaml

from compliance.files.shipped import shipped
from compliance.findings import Outcome, Standing
from compliance.judging.examples import run_example
from compliance.problems import ProblemsFound
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.rules.rule_set import Limit, Rule, RuleSet
from compliance.rules.schema import ExampleText
from compliance.rules.tables import Table
from tests.each import for_each
from tests.sentences import sentence

FAILING = {Outcome.REVISE, Outcome.ENGINEER}
SHARED_WORDS = 8
FEW, MANY = 1e-9, 1e9


@cache
def rule_set(name: str) -> RuleSet | None:
    """A rule set; None where it does not load: test_loads fails for it, and the other tests go on without it."""
    try:
        return read_shipped(name)
    except ProblemsFound:
        return None


def every_rule() -> Iterator[Rule]:
    for name in shipped_rule_sets():
        found = rule_set(name)
        yield from found.rules if found else ()


def marked(rule: Rule) -> str:
    return f"{rule.rule_set}/{rule.id}"


def limits_and_tables(rule: Rule) -> list[Limit | Table]:
    return [*rule.limits.values(), *rule.tables.values()]


def has_open(rule: Rule) -> bool:
    return any(one.standing is Standing.OPEN for one in limits_and_tables(rule))


def rules_of(name: str) -> Iterator[tuple[str, Rule]]:
    found = rule_set(name)
    yield from ((marked(rule), rule) for rule in (found.rules if found else ()))


def open_rules(_: str) -> Iterator[tuple[str, Rule]]:
    """Those of all sets: many have none."""
    yield from ((marked(rule), rule) for rule in every_rule() if has_open(rule))


def open_tables(_: str) -> Iterator[tuple[str, Rule]]:
    for rule in every_rule():
        if any(table.wholly_open for table in rule.tables.values()):
            yield marked(rule), rule


EACH_RULE = for_each(shipped_rule_sets(), rules_of)


@pytest.mark.parametrize("name", shipped_rule_sets())
def test_loads(name: str) -> None:
    assert read_shipped(name).rules


@pytest.mark.parametrize("name", shipped_rule_sets())
def test_reads_alike_with_and_without_the_parser_in_c(name: str) -> None:
    """A question mark inside { } is plain text to libyaml and a syntax error to the parser in Python."""
    text = (shipped("rulesets") / f"{name}.yaml").read_text(encoding="utf-8")
    assert yaml.safe_load(text) == yaml.load(text, Loader=yaml.CSafeLoader)


@pytest.mark.parametrize("name", shipped_rule_sets())
def test_says_what_it_is_and_that_it_is_no_substitute_for_the_adopted_text(name: str) -> None:
    found = read_shipped(name)
    assert found.title and found.edition and found.jurisdiction and found.scope and found.source
    assert "adopt" in found.verify, "the verify: line sends the reader to the adopted text"
    assert "://" not in (shipped("rulesets") / f"{name}.yaml").read_text(encoding="utf-8"), "sources are documents"


@EACH_RULE
def test_names_its_clause_and_its_sources(rule: Rule) -> None:
    assert rule.clause and rule.say and rule.title
    for limit in limits_and_tables(rule):
        if limit.standing is Standing.OPEN:
            assert limit.read_in, f"{limit.name} is open: say where to read it"
        else:
            assert limit.source, f"{limit.name} names no source"
    if not limits_and_tables(rule):
        assert rule.source and rule.standing, "a rule without limits has a source and standing of its own"


@EACH_RULE
def test_every_example_gives_what_it_says(rule: Rule) -> None:
    assert rule.examples
    found = [(number, one, run_example(rule, one)) for number, one in enumerate(rule.examples, start=1)]
    failed = [
        f"example {number} gives {got.outcome.value}, not {one.gives}: {sentence(got)}"
        for number, one, got in found
        if got.outcome is not one.outcome
    ]
    assert not failed, "\n".join(failed)


@EACH_RULE
def test_has_an_example_that_passes_and_one_that_fails(rule: Rule) -> None:
    outcomes = {run_example(one, example).outcome for one in (rule, *filled(rule)) for example in rule.examples}
    held = Outcome.CONFIRM if rule.standing is Standing.OPEN else Outcome.MEETS
    assert held in outcomes, outcomes
    assert outcomes & FAILING, outcomes
    assert outcomes & FAILING == {rule.otherwise} or rule.tables, "outside the limit the rule's own outcome stands"


@for_each(["all"], open_rules)
def test_open_limits_are_to_be_confirmed(rule: Rule) -> None:
    """While a limit is open no example can pass or fail without filling it."""
    unfilled = [example for example in rule.examples if not example.limits]
    outcomes = {run_example(rule, example).outcome for example in unfilled}
    assert Outcome.CONFIRM in outcomes
    assert outcomes <= {Outcome.CONFIRM, Outcome.NOT_APPLICABLE}


@for_each(["all"], open_tables)
def test_formulas_of_open_tables_work_once_they_are_filled(rule: Rule) -> None:
    """The same facts pass on one side of the filled value and fail on the other: the formula is no idle one."""
    for example in rule.examples:
        if example.outcome is Outcome.CONFIRM:
            outcomes = {run_example(one, example).outcome for one in filled(rule)}
            assert outcomes == {Outcome.MEETS, rule.otherwise}, example.given


def filled(rule: Rule) -> list[Rule]:
    """The rule with the open cells of its tables filled: once with a tiny value, once with a huge one."""
    if not any(table.wholly_open for table in rule.tables.values()):
        return []
    return [replace(rule, tables={name: _with(table, value) for name, table in rule.tables.items()})
            for value in (FEW, MANY)]  # fmt: skip


def _with(table: Table, value: float) -> Table:
    cells = tuple(tuple(value if cell is None else cell for cell in row) for row in table.cells)
    return replace(table, cells=cells, standing=Standing.RECALLED if table.wholly_open else table.standing)


@EACH_RULE
def test_knowing_nothing_never_meets(rule: Rule) -> None:
    for one in (rule, *filled(rule)):
        found = run_example(one, ExampleText(given={}, gives="missing"))
        assert found.outcome in {Outcome.MISSING, Outcome.CONFIRM, Outcome.NOT_APPLICABLE}, sentence(found)
        assert found.outcome is not Outcome.NOT_APPLICABLE or rule.inspect, "only a look at work not yet begun may wait"


def test_no_two_rules_share_a_run_of_words() -> None:
    """Texts are written for their own rule, not copied from one to the next, nor out of one book into two. A rule that
    a rule set takes over from the one it extends is one rule, written in one place."""
    seen: dict[tuple[str, ...], set[str]] = defaultdict(set)
    for rule in {rule.place: rule for rule in every_rule()}.values():
        for text in texts(rule):
            words = re.findall(r"[\w'/.-]+", text.lower())
            for start in range(len(words) - SHARED_WORDS):
                seen[tuple(words[start : start + SHARED_WORDS + 1])].add(marked(rule))
    shared = {" ".join(words): sorted(rules) for words, rules in seen.items() if len(rules) > 1}
    assert not shared


def texts(rule: Rule) -> list[str]:
    """All that a rule says to people in its own words; sources and clauses are names, not words of its own."""
    found = [rule.title, rule.say, rule.note, *(limit.note for limit in limits_and_tables(rule))]
    if rule.remedy:
        found.append(rule.remedy.say)
    if rule.attest:
        found.append(rule.attest.ask)
    if rule.inspect:
        found += [rule.inspect.look_at, *rule.inspect.record]
    return found
