"""Rules about specimens: which of a set count, which value of theirs governs, and whether it is enough."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.facts.catalogue import FACTS
from compliance.facts.geometry.subjects import Subject
from compliance.facts.specimens.statistics import govern
from compliance.findings import Finding, Lack, Missing, Outcome
from compliance.judging.checks import applies, conclude, look_up
from compliance.judging.context import Context, finding
from compliance.judging.prepared import Prepared, Values, left_open
from compliance.judging.set_reasons import NoGoverningValue, NoResult, NoRows, NoTest, OpenFactors, WaitMatters
from compliance.judging.specimens.counted_specimens import Waiting, counted_specimens, number_of_limit
from compliance.judging.specimens.doubtful_findings import with_doubts
from compliance.judging.specimens.waiting_results import could_change
from compliance.record import replace
from compliance.rules.formulas.formula import FormulaUndefined


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
        return [left_open(context, prepared, mix)]
    lacks = context.lacking(Missing(Lack.TEST_SET, (rule.test.of, mix.mark), ""))
    reason = NoTest(mix.mark, rule.test.of)
    return [
        finding(
            context,
            rule=rule,
            subject=mix,
            outcome=Outcome.MISSING,
            reason=reason,
            limits=prepared.limits,
            missing=(lacks,),
        )
    ]


def _judge_set(context: Context, prepared: Prepared, subject: Subject) -> Finding:
    rule = prepared.rule
    assert rule.test is not None
    specimens = context.specimens.get(subject.mark, ())
    facts = {name: subject.fact(name) for name in prepared.fact_names}
    values: Values = {name: fact.value for name, fact in facts.items()}
    values |= prepared.limit_values
    if prepared.opened:
        return left_open(context, prepared, subject)
    taken = counted_specimens(context, rule, specimens)
    counted, steps = taken.results, taken.steps
    lab = context.project.lab.file_of(context.project.test_sets[subject.mark].kind)
    rows = Missing(Lack.ROWS, (subject.mark,), lab)
    if taken.opened:
        found = finding(
            context,
            rule=rule,
            subject=subject,
            outcome=Outcome.CONFIRM,
            reason=OpenFactors(tuple(taken.opened)),
            limits=prepared.limits,
            worked=lambda: tuple(steps),
        )
        return taken.noted(found)
    statistic = str(rule.limits[rule.test.statistic].value)
    parameters = {name: number_of_limit(rule, limit) for name, limit in rule.test.parameters.items()}
    kind = "share" if rule.test.of == "shrinkage" else "stress"
    doubts = context.doubts.get(subject.mark, ())
    lacks = _cells(subject.mark, lab, taken.waiting)
    if not counted:
        untested = not taken.aside and all(one.result is None for one in taken.waiting)
        reason = NoResult(subject.mark, not untested) if specimens else NoRows(subject.mark, lab)
        found = finding(
            context, rule=rule, subject=subject, outcome=Outcome.MISSING, reason=reason, limits=prepared.limits,
            missing=(rows,) if untested else lacks or (rows,), worked=lambda: tuple(steps),
        )  # fmt: skip
        return found if untested else taken.noted(found)
    governed = govern(counted, kind, statistic, parameters)
    if governed.value is None:
        found = finding(
            context,
            rule=rule,
            subject=subject,
            outcome=Outcome.MISSING,
            reason=NoGoverningValue(subject.mark, governed.reason),
            limits=prepared.limits,
            missing=(rows, *lacks),
            worked=lambda: (*steps, *governed.steps),
        )
        return taken.noted(found)
    stated = dict(values)

    def holds(results: Sequence[float]) -> bool | None:
        return _holds(prepared, stated, govern(results, kind, statistic, parameters).value, len(results))

    values |= {"result": governed.value, "specimens": float(len(counted))}
    looked = look_up(prepared, values)
    found = taken.noted(
        conclude(
            context,
            prepared=prepared,
            subject=subject,
            values=values,
            facts=facts,
            looked=looked,
            before=(*steps, *governed.steps),
        )
    )
    if found.outcome in (Outcome.MEETS, rule.otherwise) and could_change(counted, taken.waiting, holds):
        found = replace(found, outcome=Outcome.MISSING, reason=WaitMatters(found.reason), missing=lacks, remedy="")
    return with_doubts(found, doubts, lab)


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
