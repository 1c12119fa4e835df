"""Every rule of every rule set against every subject it is about."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from compliance.facts.chain import Chain
from compliance.findings import Finding
from compliance.judging.checks import judge_check, prepare
from compliance.judging.context import Context
from compliance.judging.covers import judge_covers
from compliance.judging.records import judge_attest, judge_inspect
from compliance.judging.test_sets import judge_test
from compliance.rules.rule_set import Rule, RuleSet

NO_CHAINS: Mapping[str, Chain] = {}
Told = Callable[[int, int], None]
"""Is told how many steps of how many are done."""


def tell_nobody(done: int, of: int) -> None:
    """For whoever does not wait."""


def judge(
    context: Context, rule_sets: Iterable[RuleSet], chains: Mapping[str, Chain] = NO_CHAINS, told: Told = tell_nobody
) -> tuple[Finding, ...]:
    """All findings, in the order of the rule sets, their rules, and the subjects of the project.

    Rules that ask for passing sets are judged last, from the findings of the test rules of all rule sets. `chains`
    holds the chain of evidence of each wall, for their worked lines. `told` hears after each rule how many are judged.
    """
    rules = [rule for rule_set in rule_sets for rule in rule_set.rules]
    found: dict[int, list[Finding]] = {}
    for index, rule in enumerate(rules):
        if rule.covers is None:
            found[index] = judge_rule(context, rule)
        told(index + 1, len(rules))
    tests = [one for index, of_rule in found.items() if rules[index].test for one in of_rule]
    found |= {
        index: judge_coverage(context, rule, tests, chains)
        for index, rule in enumerate(rules)
        if rule.covers is not None
    }
    return tuple(finding for index in range(len(rules)) for finding in found[index])


def judge_coverage(
    context: Context, rule: Rule, tests: Sequence[Finding], chains: Mapping[str, Chain] = NO_CHAINS
) -> list[Finding]:
    """The findings of one rule that asks for passing sets; `tests` are those of all test rules."""
    prepared = prepare(rule)
    return [
        judge_covers(context, prepared, wall, tests, chains.get(mark))
        for mark, wall in context.facts.of("wall").items()
    ]


def judge_rule(context: Context, rule: Rule) -> list[Finding]:
    """The findings of one rule. A rule about something the project has none of gives none."""
    prepared = prepare(rule)
    subjects = context.facts.of(rule.about).values()
    if rule.test:
        return [found for mix in subjects for found in judge_test(context, prepared, mix)]
    if rule.attest:
        return [judge_attest(context, prepared, subject) for subject in subjects]
    if rule.inspect:
        return [judge_inspect(context, prepared, subject) for subject in subjects]
    return [judge_check(context, prepared, subject) for subject in subjects]
