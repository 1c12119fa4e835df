"""Rules that rest on a person's word (attest) or on a look at the work on site (inspect)."""

from __future__ import annotations

from functools import partial
from typing import TypeVar

from compliance.facts.geometry.subjects import Subject
from compliance.findings import Finding, Outcome
from compliance.judging.checks import applies
from compliance.judging.context import Context, finding
from compliance.judging.doubtful_records import against_answer, against_inspection, against_waiting
from compliance.judging.prepared import Prepared, Values
from compliance.judging.reasons import (
    Answered,
    BeforeTheWork,
    Contradicted,
    Inspected,
    NoAnswer,
    NoEvidence,
    NotDue,
    NotRecorded,
    Overdue,
)
from compliance.model.people import Attestation, InspectionRecord
from compliance.rules.rule_set import Rule
from compliance.steps import Given, Step

Record = TypeVar("Record", Attestation, InspectionRecord)


def judge_attest(context: Context, prepared: Prepared, subject: Subject) -> Finding:
    """Meets on a yes, `otherwise` on a no, missing without an answer."""
    verdict = _not_applicable(context, prepared, subject)
    if verdict:
        return verdict
    rule, attest = prepared.rule, prepared.rule.attest
    assert attest is not None
    found = partial(finding, context, rule=rule, subject=subject)
    answers = [one for one in context.project.attestations if _concerns(one, rule, subject)]
    if not answers:
        lacks = (context.answer_to(rule, subject.mark),)
        return found(outcome=Outcome.MISSING, reason=NoAnswer(attest.ask), missing=lacks)
    answer = _closest(answers, subject)
    asks_evidence = bool(attest.evidence) and "none" not in attest.evidence
    if answer.answer and asks_evidence and not answer.evidence:
        evidence = context.lacking(("attestations", context.project.attestations.index(answer), "evidence"))
        wanted = NoEvidence(answer.by, tuple(attest.evidence))
        return found(outcome=Outcome.MISSING, reason=wanted, missing=(evidence,))
    outcome = Outcome.MEETS if answer.answer else rule.otherwise
    reason = Answered(answer.by, answer.answer, answer.on, _titles(context, answer))
    against = against_answer(context, rule, answer, subject) if answer.answer else ""
    if against:
        lacks = (context.answer_to(rule, subject.mark),)
        return found(outcome=Outcome.MISSING, reason=Contradicted(reason, against), missing=lacks)
    return found(outcome=outcome, reason=reason, worked=lambda: (_answer_step(attest.ask, answer, context),))


def judge_inspect(context: Context, prepared: Prepared, subject: Subject) -> Finding:
    """Not judged before the work: not applicable until a record is there, then by what it says."""
    verdict = _not_applicable(context, prepared, subject)
    if verdict:
        return verdict
    rule, inspect = prepared.rule, prepared.rule.inspect
    assert inspect is not None
    found = partial(finding, context, rule=rule, subject=subject)
    records = [one for one in context.project.inspections if _concerns(one, rule, subject)]
    if not records:
        if against := against_waiting(context, inspect.stage, inspect.point, subject):
            lacks = (context.lacking(("inspections",)),)
            return found(outcome=Outcome.MISSING, reason=Overdue(against), missing=lacks)
        return found(outcome=Outcome.NOT_APPLICABLE, reason=BeforeTheWork(inspect.point, inspect.stage))
    record = _closest(records, subject)
    reason = Inspected(record.by, record.passed, record.on, _titles(context, record))
    against = against_inspection(context, inspect.stage, record, subject) if record.passed else ""
    if against:
        lacks = (context.lacking(("inspections", context.project.inspections.index(record), "on")),)
        return found(outcome=Outcome.MISSING, reason=Contradicted(reason, against), missing=lacks)
    outcome = Outcome.MEETS if record.passed else rule.otherwise
    return found(outcome=outcome, reason=reason, worked=lambda: (_answer_step(inspect.look_at, record, context),))


def waits_for_the_work(finding: Finding) -> bool:
    """An inspection that is to come, due or not, as told from one that does not apply."""
    held = finding.reason.held if isinstance(finding.reason, NotDue) else finding.reason
    return isinstance(held, (BeforeTheWork, NotRecorded))


def _not_applicable(context: Context, prepared: Prepared, subject: Subject) -> Finding | None:
    values: Values = {name: subject.fact(name).value for name in prepared.fact_names}
    values |= prepared.limit_values
    return applies(context, prepared, subject, values)


def _concerns(record: Attestation | InspectionRecord, rule: Rule, subject: Subject) -> bool:
    named = record.is_of(rule.rule_set, rule.id)
    return named and record.about in (None, subject.mark, subject.wall or subject.mark)


def _closest(records: list[Record], subject: Subject) -> Record:
    """The latest record that names the subject itself, else the latest that covers it; of several of that day, a no."""
    own = [record for record in records if record.about == subject.mark]
    return max(own or records, key=lambda record: (record.on, not _answered_yes(record)))


def _answered_yes(record: Attestation | InspectionRecord) -> bool:
    return record.answer if isinstance(record, Attestation) else record.passed


def _titles(context: Context, record: Attestation | InspectionRecord) -> tuple[str, ...]:
    return tuple(context.project.attachments[mark].title for mark in record.evidence)


def _answer_step(ask: str, record: Attestation | InspectionRecord, context: Context) -> Step:
    note = f"; {record.note}" if record.note else ""
    titles = _titles(context, record)
    evidence = f"; evidence: {', '.join(titles)}" if titles else ""
    source = f"{record.by}, {record.on.isoformat()}{evidence}{note}"
    return Step(ask, formula="", given=(), result=Given("", _answered_yes(record)), source=source)
