"""Every rule of every rule set against every subject it is about."""

from __future__ import annotations

from collections.abc import Iterable

from compliance.findings import Finding
from compliance.judging.checks import judge_check, prepare
from compliance.judging.context import Context
from compliance.judging.records import judge_attest, judge_inspect
from compliance.judging.test_sets import judge_test
from compliance.rules.rule_set import Rule, RuleSet


def judge(context: Context, rule_sets: Iterable[RuleSet]) -> tuple[Finding, ...]:
    """All findings, in the order of the rule sets, their rules, and the subjects of the project."""
    return tuple(finding for rule_set in rule_sets for rule in rule_set.rules for finding in judge_rule(context, rule))


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
