"""A rule made ready to be judged, once for all subjects."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from compliance.facts.catalogue import FACTS
from compliance.facts.geometry.subjects import Subject
from compliance.findings import Finding, LimitUsed, Outcome
from compliance.judging.context import Context, finding, kind_of, label, open_limits, open_reason
from compliance.record import record
from compliance.rules.formulas.formula import Comparison, Evaluator, Value
from compliance.rules.rule_checks import COVER_COUNTS, RESULT_KINDS
from compliance.rules.rule_set import Limit, Rule
from compliance.rules.tables import Table

Values = dict[str, Value]


@record
class Prepared:
    """A rule with its formulas compiled, once for all subjects; what is for its check only where it applies to one.
    `fact_names` are all the facts it asks for, `checked` those that its check and its tables rest on; `opened` are its
    open limits."""

    rule: Rule
    when: Evaluator | None
    fact_names: tuple[str, ...]
    checked: tuple[str, ...]
    limit_values: Mapping[str, Value]
    limits: tuple[LimitUsed, ...]
    opened: tuple[LimitUsed, ...]

    @cached_property
    def check(self) -> Evaluator | None:
        return self.rule.check.compile() if self.rule.check else None

    @cached_property
    def kinds(self) -> Mapping[str, str]:
        """The kind of measure of each name in its formulas."""
        rule = self.rule
        kinds = {name: kind_of(name) for name in self.fact_names}
        kinds |= {name: limit.kind for name, limit in rule.limits.items()}
        kinds |= {name: table.kind for name, table in rule.looked_up.items()}
        if rule.covers:
            kinds |= dict.fromkeys(COVER_COUNTS, "count")
        if rule.test:
            kinds |= {"result": RESULT_KINDS[rule.test.of], "specimens": "count"}
        return kinds

    @cached_property
    def labels(self) -> Mapping[str, str]:
        return {name: label(name) for name in self.kinds}

    @cached_property
    def comparisons(self) -> tuple[tuple[Comparison, str], ...]:
        """Those of its check, each with the kind to write its sides in."""
        found = self.rule.check.comparisons() if self.rule.check else ()
        return tuple((comparison, comparison.kind(self.kinds)) for comparison in found)


def prepare(rule: Rule) -> Prepared:
    formulas = [formula for formula in (rule.when, rule.check) if formula]
    axes = {name for table in rule.looked_up.values() for name in table.fact_names}
    facts = axes | {name for formula in formulas for name in formula.names if name in FACTS}
    checked = axes | (facts & rule.check.names if rule.check else set())
    limits: list[Limit | Table] = [*rule.limits.values(), *rule.tables.values()]
    used_limits = tuple(rule.limit_used(limit) for limit in limits)
    return Prepared(
        rule,
        when=rule.when.compile() if rule.when else None,
        fact_names=tuple(sorted(facts)),
        checked=tuple(sorted(checked)),
        limit_values={name: limit.value for name, limit in rule.limits.items()},
        limits=used_limits,
        opened=tuple(open_limits(used_limits)),
    )


def left_open(context: Context, prepared: Prepared, subject: Subject) -> Finding:
    """The finding of a rule with a limit that is open: to be confirmed, whatever the values are."""
    return finding(
        context, rule=prepared.rule, subject=subject, outcome=Outcome.CONFIRM, reason=open_reason(prepared.opened),
        limits=prepared.limits,
    )  # fmt: skip
