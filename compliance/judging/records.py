"""Rules that rest on a person's word (attest) or on a look at the work on site (inspect)."""

from __future__ import annotations

from typing import TypeVar

from compliance.facts.geometry.subjects import Subject
from compliance.findings import Finding, Outcome, Reason
from compliance.judging.checks import applies
from compliance.judging.context import Context, finding
from compliance.judging.prepared import Prepared, Values
from compliance.model.people import Attestation, InspectionRecord
from compliance.steps import Given, Step

Record = TypeVar("Record", Attestation, InspectionRecord)


def judge_attest(context: Context, prepared: Prepared, subject: Subject) -> Finding:
    """Meets on a yes, `otherwise` on a no, missing without an answer."""
    verdict = _not_applicable(context, prepared, subject)
    if verdict:
        return verdict
    rule, attest = prepared.rule, prepared.rule.attest
    assert attest is not None
    answers = [one for one in context.project.attestations if _concerns(one, rule.id, subject)]
    if not answers:
        lacks = (context.answer_to(rule.id, subject.mark),)
        reason = f"nobody has answered: {attest.ask}"
        return finding(context, rule, subject, Outcome.MISSING, Reason.NO_ANSWER, reason, missing=lacks)
    answer = _closest(answers, subject)
    asks_evidence = bool(attest.evidence) and "none" not in attest.evidence
    if answer.answer and asks_evidence and not answer.evidence:
        evidence = context.lacking(("attestations", context.project.attestations.index(answer), "evidence"))
        reason = f"{answer.by} says yes, but the rule asks for {' or '.join(attest.evidence)} as evidence"
        return finding(context, rule, subject, Outcome.MISSING, Reason.NO_EVIDENCE, reason, missing=(evidence,))
    outcome = Outcome.MEETS if answer.answer else rule.otherwise
    reason = (
        f"{answer.by} says {'yes' if answer.answer else 'no'} on {answer.on.isoformat()}{_evidence(context, answer)}"
    )
    return finding(
        context,
        rule,
        subject,
        outcome,
        Reason.ANSWERED,
        reason,
        worked=lambda: (_answer_step(attest.ask, answer, context),),
    )


def judge_inspect(context: Context, prepared: Prepared, subject: Subject) -> Finding:
    """Not judged before the work: not applicable until a record is there, then by what it says."""
    verdict = _not_applicable(context, prepared, subject)
    if verdict:
        return verdict
    rule, inspect = prepared.rule, prepared.rule.inspect
    assert inspect is not None
    records = [one for one in context.project.inspections if _concerns(one, rule.id, subject)]
    if not records:
        reason = f"not judged before the work: {inspect.point} point of the inspection plan, stage {inspect.stage}"
        return finding(context, rule, subject, Outcome.NOT_APPLICABLE, Reason.BEFORE_THE_WORK, reason)
    record = _closest(records, subject)
    result = "passed" if record.passed else "not passed"
    reason = f"{record.by} recorded {result} on {record.on.isoformat()}{_evidence(context, record)}"
    outcome = Outcome.MEETS if record.passed else rule.otherwise
    return finding(
        context,
        rule,
        subject,
        outcome,
        Reason.INSPECTED,
        reason,
        worked=lambda: (_answer_step(inspect.look_at, record, context),),
    )


def waits_for_the_work(finding: Finding) -> bool:
    """An inspection that is to come, as told from one that does not apply."""
    return finding.why is Reason.BEFORE_THE_WORK


def _not_applicable(context: Context, prepared: Prepared, subject: Subject) -> Finding | None:
    values: Values = {name: subject.fact(name).value for name in prepared.fact_names}
    values |= prepared.limit_values
    return applies(context, prepared, subject, values)


def _concerns(record: Attestation | InspectionRecord, rule: str, subject: Subject) -> bool:
    return record.rule == rule and record.about in (None, subject.mark, subject.wall or subject.mark)


def _closest(records: list[Record], subject: Subject) -> Record:
    """The latest record that names the subject itself, else the latest that covers it; of several of that day, a no."""
    own = [record for record in records if record.about == subject.mark]
    return max(own or records, key=lambda record: (record.on, not _answered_yes(record)))


def _answered_yes(record: Attestation | InspectionRecord) -> bool:
    return record.answer if isinstance(record, Attestation) else record.passed


def _evidence(context: Context, record: Attestation | InspectionRecord) -> str:
    titles = [context.project.attachments[mark].title for mark in record.evidence]
    return f"; evidence: {', '.join(titles)}" if titles else ""


def _answer_step(ask: str, record: Attestation | InspectionRecord, context: Context) -> Step:
    note = f"; {record.note}" if record.note else ""
    source = f"{record.by}, {record.on.isoformat()}{_evidence(context, record)}{note}"
    return Step(ask, "", (), Given("", _answered_yes(record)), source)
