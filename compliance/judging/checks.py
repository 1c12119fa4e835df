"""Rules that compare facts with limits and tables."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import cached_property

from compliance.facts.catalogue import FACTS
from compliance.facts.common.fact import Fact
from compliance.facts.geometry.subjects import Subject
from compliance.findings import Finding, LimitUsed, Outcome, Reason, Standing
from compliance.judging.context import Context, finding, kind_of, label, open_reason
from compliance.judging.deciding import numbers_of, reason_of
from compliance.judging.prepared import Prepared, Values
from compliance.judging.reasons import (
    Beyond,
    Entry,
    Lacks,
    NoCondition,
    NoMeaning,
    NotWhere,
    NoValue,
    OpenEntries,
    OutsideTables,
    WithoutEnd,
)
from compliance.record import record, replace
from compliance.rules.formulas.formula import Formula, FormulaUndefined
from compliance.rules.rule_set import Rule
from compliance.rules.tables import Looked
from compliance.steps import Given, Step


def applies(context: Context, prepared: Prepared, subject: Subject, values: Values) -> Finding | None:
    """None when the rule applies to the subject; else the finding that says why nothing more can be said."""
    if prepared.when is None:
        return None
    rule = prepared.rule
    assert rule.when is not None
    try:
        holds = prepared.when(values)
    except FormulaUndefined as undefined:
        return finding(
            context, rule=rule, subject=subject, outcome=Outcome.ENGINEER, reason=NoCondition(str(undefined))
        )
    if holds is True:
        return None
    if holds is False:
        return finding(context, rule=rule, subject=subject, outcome=Outcome.NOT_APPLICABLE, reason=NotWhere(rule.when))
    return _lacking(context, prepared=prepared, subject=subject, formula=rule.when, limits=())


def judge_check(context: Context, prepared: Prepared, subject: Subject) -> Finding:
    """The finding of one check rule for one subject."""
    facts = {name: subject.fact(name) for name in prepared.fact_names}
    values: Values = {name: fact.value for name, fact in facts.items()}
    values |= prepared.limit_values
    verdict = applies(context, prepared, subject, values)
    if verdict and (verdict.outcome is Outcome.NOT_APPLICABLE or not prepared.opened):
        return verdict
    looked = look_up(prepared, values)
    return conclude(context, prepared=prepared, subject=subject, values=values, facts=facts, looked=looked)


def conclude(
    context: Context, prepared: Prepared, subject: Subject, values: Values, facts: Mapping[str, Fact],
    looked: Mapping[str, Looked], before: Sequence[Step] = (),
) -> Finding:  # fmt: skip
    """Evaluates the check. Order: an open limit, a lacking fact, a place outside a table, then yes or no."""
    rule, formula, check = prepared.rule, prepared.rule.check, prepared.check
    assert formula is not None and check is not None
    numbers = numbers_of(prepared, values)
    rests_on = [facts[name] for name in prepared.checked if name in facts]
    limits = _as_looked_up(prepared, looked)
    worked = Working(prepared, values=values, rests_on=rests_on, looked=looked, before=before)

    def found(outcome: Outcome, reason: Reason) -> Finding:
        return finding(
            context,
            rule=rule,
            subject=subject,
            outcome=outcome,
            reason=reason,
            limits=limits,
            facts=rests_on,
            worked=worked,
            numbers=numbers,
        )

    if prepared.opened:
        return found(Outcome.CONFIRM, open_reason(prepared.opened))
    if any(one.open for one in looked.values()):
        return found(Outcome.CONFIRM, _open_cells(rule, looked))
    try:
        holds = check(values)
    except FormulaUndefined as undefined:
        endless = _without_limit(prepared, facts)
        return found(Outcome.ENGINEER, WithoutEnd(endless) if endless else NoValue(str(undefined)))
    if holds is not None:
        outcome = Outcome.MEETS if holds else rule.otherwise
        return found(outcome, reason_of(prepared, numbers, bool(holds)))
    outside = tuple(Entry(name, one.how) for name, one in looked.items() if one.outside)
    if outside:
        return found(Outcome.ENGINEER, OutsideTables(outside))
    return _lacking(context, prepared=prepared, subject=subject, formula=formula, limits=limits)


@record
class Working:
    """The worked lines of a check, made when they are asked for: what was worked out `before`, the facts it rests on,
    what its tables say, and the check itself; of a check whose limit is open, the value that is held against it."""

    prepared: Prepared
    values: Values
    rests_on: Sequence[Fact]
    looked: Mapping[str, Looked]
    before: Sequence[Step]

    def __call__(self) -> tuple[Step, ...]:
        return self._lines

    @cached_property
    def _lines(self) -> tuple[Step, ...]:
        prepared, rule = self.prepared, self.prepared.rule
        derived = dict.fromkeys(step for fact in self.rests_on for step in fact.steps)  # facts may rest on the same
        tables = [_table_step(rule, name, one, self.values) for name, one in self.looked.items()]
        check = rule.check.explain(self.values, prepared.labels, prepared.kinds) if rule.check else ()
        if prepared.opened:
            check = tuple(step for step in check if step.says == "value" and isinstance(step.result.value, float))
        return (*self.before, *derived, *tables, *check)


def _without_limit(prepared: Prepared, facts: Mapping[str, Fact]) -> str:
    """What is said of facts that grow without limit: the last line of how each is worked out says why."""
    phrases = []
    for name in prepared.checked:
        fact = facts.get(name)
        if fact is None or not isinstance(fact.value, float) or math.isfinite(fact.value):
            continue
        steps = fact.steps
        why = steps[-1].says if steps else ""
        phrases.append(f"{label(name)}: {why[:1].lower()}{why[1:]}" if why else f"{label(name)} has no limit here")
    return "; ".join(phrases)


def look_up(prepared: Prepared, values: Values) -> dict[str, Looked]:
    """What each table of the rule says; its value goes into `values`."""
    looked: dict[str, Looked] = {}
    for name, table in prepared.rule.looked_up.items():
        entries = [values[fact] for fact in table.fact_names]
        values[name] = None
        if all(isinstance(entry, (float, str, bool)) for entry in entries):
            looked[name] = table.look_up(*entries)  # type: ignore[arg-type]
            values[name] = looked[name].value
    return looked


def _table_step(rule: Rule, name: str, looked: Looked, values: Values) -> Step:
    table = rule.tables[name]
    entries = " and ".join(label(fact) for fact in table.fact_names)
    result = Given("", "open" if looked.open else "outside" if looked.value is None else looked.value, table.kind)
    given = tuple(
        Given(label(fact), entry, kind_of(fact))
        for fact in table.fact_names
        if isinstance(entry := values[fact], (float, str, bool))
    )
    return Step(
        f"{name.replace('_', ' ')} by {entries} ({looked.how})",
        formula="",
        given=given,
        result=result,
        source=table.known_from,
    )


def _open_cells(rule: Rule, looked: Mapping[str, Looked]) -> OpenEntries:
    opened = [(name, one.how) for name, one in looked.items() if one.open]
    return OpenEntries(tuple(Entry(name, how, rule.tables[name].read_in or rule.clause) for name, how in opened))


def _as_looked_up(prepared: Prepared, looked: Mapping[str, Looked]) -> tuple[LimitUsed, ...]:
    """The limits of the rule; a table is known as well as the least known cell that was looked up in it."""
    if not looked:
        return prepared.limits
    return tuple(_of_cells(limit, prepared.rule, looked.get(limit.name)) for limit in prepared.limits)


def _of_cells(limit: LimitUsed, rule: Rule, one: Looked | None) -> LimitUsed:
    if one is None:
        return limit
    if one.open:
        return replace(limit, standing=Standing.OPEN, value=None)
    return replace(limit, standing=rule.tables[limit.name].standing_of(one.cells))


def _lacking(
    context: Context, prepared: Prepared, subject: Subject, formula: Formula, limits: tuple[LimitUsed, ...]
) -> Finding:
    """What the formula lacks: fields to write, or facts that have no meaning here (then the rule does not apply)."""
    names = prepared.checked if limits else sorted(formula.names & FACTS.keys())
    facts = [subject.fact(name) for name in names]
    missing = tuple(dict.fromkeys(context.lacking(path) for fact in facts for path in fact.missing))
    reasons = tuple(dict.fromkeys(fact.reason for fact in facts if fact.reason))
    rule = prepared.rule
    if any(fact.beyond for fact in facts):
        beyond = Beyond(reasons)
        return finding(
            context, rule=rule, subject=subject, outcome=Outcome.ENGINEER, reason=beyond, limits=limits, missing=missing
        )
    if not missing and reasons:
        return finding(context, rule=rule, subject=subject, outcome=Outcome.NOT_APPLICABLE, reason=NoMeaning(reasons))
    return finding(
        context,
        rule=rule,
        subject=subject,
        outcome=Outcome.MISSING,
        reason=Lacks(reasons),
        limits=limits,
        missing=missing,
    )
