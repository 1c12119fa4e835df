"""The examples a rule carries, run through the same judging as a project's own facts."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import cache

from compliance.facts.catalogue import FACTS, WORD, YES_NO
from compliance.facts.common.fact import Fact, FieldPath, known, lacking
from compliance.facts.geometry.subjects import Facts, Subject
from compliance.findings import Finding, Outcome, Standing
from compliance.judging.checks import applies, conclude, judge_check, look_up
from compliance.judging.context import Context, finding, open_limits, open_reason
from compliance.judging.covers import conclude_covers
from compliance.judging.prepared import Prepared, Values, prepare
from compliance.judging.records import judge_attest, judge_inspect
from compliance.judging.set_reasons import NoTest
from compliance.model.people import Attachment, Attestation, InspectionRecord, Jurisdiction, ProjectHead
from compliance.model.project import Project
from compliance.problems import Place
from compliance.record import replace
from compliance.rules.limit_values import RefusedLimitError, plain_value
from compliance.rules.rule_checks import COVER_COUNTS, RESULT_KINDS
from compliance.rules.rule_set import Plain, Rule
from compliance.rules.schema import ExampleText, LimitValue, Scalar
from compliance.rules.tables import Table
from compliance.units import Writer

_DAY = date(2026, 1, 1)
_MARK = "example"


class ExampleError(ValueError):
    """An example that cannot be run: `where` is the path below the example."""

    def __init__(self, wrong: str, instead: str, where: tuple[str | int, ...]) -> None:
        self.wrong, self.instead, self.where = wrong, instead, where
        super().__init__(f"{wrong} ({instead})")


def run_example(rule: Rule, example: ExampleText) -> Finding:
    """The finding of the rule for the example's facts. Raises ExampleError."""
    prepared = prepare(filled_in(rule, example))
    given = dict(example.given)
    answer = given.pop("answer", None) if rule.attest or rule.inspect else None
    counted = ("result", "specimens") if rule.test else COVER_COUNTS if rule.covers else ()
    results = {name: given.pop(name, None) for name in counted}
    subject = _subject("set" if rule.test else rule.about, given)
    context = _context(rule, answer)
    if rule.attest:
        return judge_attest(context, prepared, subject)
    if rule.inspect:
        return judge_inspect(context, prepared, subject)
    if rule.test:
        return _run_test(context, prepared=prepared, subject=subject, kind=rule.test.of, results=results)
    if rule.covers:
        return _run_covers(context, prepared, subject, results)
    return judge_check(context, prepared, subject)


def _run_test(
    context: Context, prepared: Prepared, subject: Subject, kind: str, results: Mapping[str, Scalar | None]
) -> Finding:
    values: Values = {name: subject.fact(name).value for name in prepared.fact_names}
    values |= prepared.limit_values
    verdict = applies(context, prepared, subject, values)
    if verdict and verdict.outcome is Outcome.NOT_APPLICABLE:
        return verdict
    opened = open_limits(prepared.limits)
    if opened:
        return finding(
            context,
            rule=prepared.rule,
            subject=subject,
            outcome=Outcome.CONFIRM,
            reason=open_reason(opened),
            limits=prepared.limits,
        )
    for name, of in (("result", RESULT_KINDS[kind]), ("specimens", "count")):
        raw = results[name]
        values[name] = None if raw is None else _plain(name, raw, of)
    if values["result"] is None or values["specimens"] is None:
        return finding(
            context,
            rule=prepared.rule,
            subject=subject,
            outcome=Outcome.MISSING,
            reason=NoTest(_MARK, kind),
            limits=prepared.limits,
        )
    return conclude(
        context, prepared=prepared, subject=subject, values=values, facts={}, looked=look_up(prepared, values)
    )


def _run_covers(
    context: Context, prepared: Prepared, subject: Subject, results: Mapping[str, Scalar | None]
) -> Finding:
    """`passing` sets and `failing` ones (none where not said) in place of the findings of test rules."""
    facts = {name: subject.fact(name) for name in prepared.fact_names}
    values: Values = {name: fact.value for name, fact in facts.items()}
    values |= prepared.limit_values
    verdict = applies(context, prepared, subject, values)
    opened = open_limits(prepared.limits)
    if verdict and (verdict.outcome is Outcome.NOT_APPLICABLE or not opened):
        return verdict
    if opened:
        return finding(
            context,
            rule=prepared.rule,
            subject=subject,
            outcome=Outcome.CONFIRM,
            reason=open_reason(opened),
            limits=prepared.limits,
        )
    for name in COVER_COUNTS:
        raw = results[name]
        values[name] = 0.0 if raw is None else _plain(name, raw, "count")
    return conclude_covers(context, prepared=prepared, subject=subject, values=values, facts=facts, mix="")


def filled_in(rule: Rule, example: ExampleText) -> Rule:
    """The rule with the limits that the example fills in. Raises ExampleError."""
    limits, tables = dict(rule.limits), dict(rule.tables)
    for name, value in example.limits.items():
        if name in tables:
            tables[name] = _filled(tables[name], _plain(name, value, tables[name].kind, ("limits", name)))
            continue
        if name not in limits:
            raise ExampleError(f"the rule has no limit {name!r}", "use a name under limits:", ("limits", name))
        filled = _plain(name, value, limits[name].kind, ("limits", name))
        standing = Standing.RECALLED if limits[name].standing is Standing.OPEN else limits[name].standing
        limits[name] = replace(limits[name], value=filled, standing=standing)
    return replace(rule, limits=limits, tables=tables)


def _filled(table: Table, value: Plain) -> Table:
    """A table with every open cell set to one value."""
    assert isinstance(value, float)  # of the table's kind, which is a measure
    cells = tuple(tuple(value if cell is None else cell for cell in row) for row in table.cells)
    standing = Standing.RECALLED if table.standing is Standing.OPEN else table.standing
    return replace(table, cells=cells, standing=standing)


def _plain(name: str, value: LimitValue, kind: str, where: tuple[str, ...] = ()) -> Plain:
    try:
        return plain_value(value, kind)[0]
    except RefusedLimitError as refused:
        raise ExampleError(refused.wrong, refused.instead, where or ("given", name)) from None


def _subject(about: str, given: Mapping[str, Scalar | None]) -> Subject:
    """A subject and those it looks to, with the given facts; every other fact is lacking."""
    unknown = [name for name in given if name not in FACTS]
    if unknown:
        raise ExampleError(f"there is no fact {unknown[0]!r}", "use names of facts", ("given", unknown[0]))
    parts = {about: Subject(about, _MARK, (about, _MARK), dict(facts)) for about, facts in _all_lacking().items()}
    for name, value in given.items():
        if value is not None:
            parts[FACTS[name].about].facts[name] = known(_fact(name, value))
    for part in parts.values():
        part.parents = parts
    return parts[about]


@cache
def _all_lacking() -> dict[str, dict[str, Fact]]:
    """Every fact of every subject, each lacking."""
    facts: dict[str, dict[str, Fact]] = {}
    for name, spec in sorted(FACTS.items(), key=lambda item: item[1].about):
        path = (spec.about, _MARK, name.partition(".")[2])
        facts.setdefault(spec.about, {})[name] = lacking(path)
    return facts


def _fact(name: str, value: Scalar) -> float | str | bool:
    kind, choices = FACTS[name].kind, FACTS[name].choices
    if choices and str(value) not in choices:
        raise ExampleError(f"{value!r} is no value of {name}", f"write one of {', '.join(choices)}", ("given", name))
    if kind == WORD:
        return str(value)
    if kind == YES_NO:
        plain = {"yes": True, "no": False}.get(str(value), value)
        if not isinstance(plain, bool):
            raise ExampleError(f"{value!r} is neither yes nor no", "write yes or no", ("given", name))
        return plain
    number = _plain(name, value, kind)
    assert isinstance(number, float)
    return number


def _accepted_evidence(rule: Rule) -> Attachment:
    """Something attached that is of a kind the rule asks for."""
    wanted = [kind for kind in rule.attest.evidence if kind != "none"] if rule.attest else []
    return Attachment.model_validate(
        {"file": _MARK, "title": _MARK, "date": _DAY} | ({"kind": wanted[0]} if wanted else {})
    )


def _context(rule: Rule, answer: Scalar | None) -> Context:
    """A context in which the rule's question, if it has one, has been answered."""
    yes = {"yes": True, "no": False}.get(str(answer), answer)
    attestations, inspections = [], []
    if isinstance(yes, bool) and rule.attest:
        attestations = [Attestation(rule=rule.id, answer=yes, by=_MARK, on=_DAY, about=_MARK, evidence=[_MARK])]
    if isinstance(yes, bool) and rule.inspect:
        inspections = [InspectionRecord(rule=rule.id, passed=yes, by=_MARK, on=_DAY)]
    project = Project.model_construct(
        project=ProjectHead(name=_MARK, date=_DAY),
        jurisdiction=Jurisdiction(name=_MARK, rule_sets=[rule.rule_set]),
        walls={},
        attestations=attestations,
        inspections=inspections,
        attachments={_MARK: _accepted_evidence(rule)},
    )

    def where(path: FieldPath) -> Place:
        return Place(_MARK)

    return Context(project, facts=Facts({}), specimens={}, where=where, writer=Writer("us"))
