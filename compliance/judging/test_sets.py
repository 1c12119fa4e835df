"""Rules about specimens: which of a set count, which value of theirs governs, and whether it is enough."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.facts.catalogue import FACTS
from compliance.facts.geometry.subjects import Subject
from compliance.facts.specimens.statistics import govern
from compliance.findings import Finding, Lack, Missing, Outcome, Reason, SetAside
from compliance.judging.checks import applies, conclude, look_up
from compliance.judging.context import Context, finding, open_reason
from compliance.judging.prepared import Prepared, Values
from compliance.judging.specimens.counted_specimens import Waiting, counted_specimens
from compliance.judging.specimens.doubtful_findings import with_doubts
from compliance.judging.specimens.waiting_results import could_change
from compliance.record import replace
from compliance.rules.formulas.formula import FormulaUndefined
from compliance.rules.rule_set import Rule


def judge_test(context: Context, prepared: Prepared, mix: Subject) -> list[Finding]:
    """One finding for each set of the mix; `missing` about the mix where it has none of the kind."""
    rule = prepared.rule
    assert rule.test is not None
    names = [name for name in prepared.fact_names if FACTS[name].about != "set"]
    values: Values = {name: mix.fact(name).value for name in names}
    values |= prepared.limit_values
    verdict = applies(context, prepared, mix, values)
    if verdict and (verdict.outcome is Outcome.NOT_APPLICABLE or not prepared.opened):
        return [verdict]
    sets = [
        subject
        for mark, subject in context.facts.of("set").items()
        if (test := context.project.test_sets[mark]).mix == mix.mark and test.kind == rule.test.of
    ]
    if sets:
        return [_judge_set(context, prepared, one) for one in sets]
    if prepared.opened:
        return [
            finding(
                context,
                rule,
                mix,
                Outcome.CONFIRM,
                Reason.OPEN_LIMIT,
                open_reason(prepared.opened),
                limits=prepared.limits,
            )
        ]
    lacks = context.lacking(Missing(Lack.TEST_SET, (rule.test.of, mix.mark), ""))
    reason = f"mix {mix.mark} has no {rule.test.of} test"
    return [
        finding(context, rule, mix, Outcome.MISSING, Reason.NO_SET, reason, limits=prepared.limits, missing=(lacks,))
    ]


def _judge_set(context: Context, prepared: Prepared, subject: Subject) -> Finding:
    rule = prepared.rule
    assert rule.test is not None
    specimens = context.specimens.get(subject.mark, ())
    facts = {name: subject.fact(name) for name in prepared.fact_names}
    values: Values = {name: fact.value for name, fact in facts.items()}
    values |= prepared.limit_values
    if prepared.opened:
        return finding(
            context,
            rule,
            subject,
            Outcome.CONFIRM,
            Reason.OPEN_LIMIT,
            open_reason(prepared.opened),
            limits=prepared.limits,
        )
    taken = counted_specimens(context, rule, specimens)
    counted, steps = taken.results, taken.steps
    lab = context.project.lab.file_of(context.project.test_sets[subject.mark].kind)
    rows = Missing(Lack.ROWS, (subject.mark,), lab)
    if taken.opened:
        reason = f"the factor for height to width is not known: {'; '.join(taken.opened)}; {taken.words}"
        return finding(context, rule, subject, Outcome.CONFIRM, Reason.OPEN_FACTOR, reason, limits=prepared.limits,
                       worked=lambda: tuple(steps))  # fmt: skip
    statistic = str(rule.limits[rule.test.statistic].value)
    parameters = {name: _number(rule, limit) for name, limit in rule.test.parameters.items()}
    kind = "share" if rule.test.of == "shrinkage" else "stress"
    doubts = context.doubts.get(subject.mark, ())
    lacks = _cells(subject.mark, lab, taken.waiting)
    if not counted:
        untested = not taken.aside and all(one.result is None for one in taken.waiting)
        reason = (
            f"{subject.mark} has no rows in {lab}"
            if not specimens
            else f"no specimen of {subject.mark} has a result"
            if untested
            else f"no specimen of {subject.mark} counts: {taken.words}"
        )
        return finding(context, rule, subject, Outcome.MISSING, Reason.NO_RESULT, reason, limits=prepared.limits,
                       missing=(rows,) if untested else lacks or (rows,),
                       worked=lambda: tuple(steps))  # fmt: skip
    governed = govern(counted, kind, statistic, parameters)
    if governed.value is None:
        reason = f"the value that governs {subject.mark} cannot be found: {governed.reason}; {taken.words}"
        return finding(context, rule, subject, Outcome.MISSING, Reason.NO_GOVERNING_VALUE, reason,
                       limits=prepared.limits, missing=(rows, *lacks),
                       worked=lambda: (*steps, *governed.steps))  # fmt: skip
    stated = dict(values)

    def holds(results: Sequence[float]) -> bool | None:
        return _holds(prepared, stated, govern(results, kind, statistic, parameters).value, len(results))

    values |= {"result": governed.value, "specimens": float(len(counted))}
    looked = look_up(prepared, values)
    found = conclude(context, prepared, subject, values, facts, looked, (*steps, *governed.steps))
    found = replace(
        found, reason=f"{found.reason}; {taken.words}", aside=tuple(SetAside(*one) for one in taken.aside),
        waiting=tuple(SetAside(one.mark, one.why) for one in taken.waiting),
    )  # fmt: skip
    if found.outcome in (Outcome.MEETS, rule.otherwise) and could_change(counted, taken.waiting, holds):
        reason = f"counting what waits could change the outcome: {found.reason}"
        found = replace(
            found, outcome=Outcome.MISSING, why=Reason.SPECIMENS_WAIT, reason=reason, missing=lacks, remedy=""
        )
    return with_doubts(context, found, doubts, lab)


def _holds(prepared: Prepared, stated: Values, result: float | None, count: int) -> bool | None:
    """Whether the check holds for a governing value; None where it has none, or no answer."""
    if result is None or prepared.check is None:
        return None
    values = stated | {"result": result, "specimens": float(count)}
    look_up(prepared, values)
    try:
        found = prepared.check(values)
    except FormulaUndefined:
        return None
    return found if isinstance(found, bool) else None


def _cells(mark: str, lab: str, waiting: Sequence[Waiting]) -> tuple[Missing, ...]:
    return tuple(Missing(Lack.CELL, (" and ".join(one.columns), one.mark, mark), lab) for one in waiting)


def _number(rule: Rule, name: str) -> float:
    value = rule.limits[name].value
    assert isinstance(value, float)
    return value
