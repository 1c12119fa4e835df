"""The questions only a person can answer, each once with all it is about, in the order of the rule sets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Literal

from compliance.checked import Checked
from compliance.findings import Finding, Outcome
from compliance.judging.reasons import BeforeTheWork, NoAnswer, NotDue, NotRecorded, Overdue
from compliance.record import record
from compliance.rules.rule_set import Rule

Section = Literal["attestations", "inspections"]
_KINDS: dict[str, Section] = {"attest": "attestations", "inspect": "inspections"}
_UNANSWERED = (NoAnswer, NotRecorded, Overdue, BeforeTheWork)


@record
class OpenQuestion:
    """`name` is how an entry of `section` names the rule; `subjects` are the marks without an answer, or all that the
    rule is about where it is asked for by name and each has one. `evidence` are the kinds the rule takes."""

    section: Section
    name: str
    rule: Rule
    asks: str
    evidence: tuple[str, ...]
    subjects: tuple[str, ...]

    @property
    def evidence_words(self) -> str:
        """Which evidence the rule asks for, in a sentence or two; empty where it asks for none."""
        kinds = [kind for kind in self.evidence if kind != "none"]
        if not kinds:
            return ""
        needed = "" if "none" in self.evidence else " A yes needs it."
        return f"Evidence asked for: {' or '.join(kinds)}.{needed}"


def questions_due(checked: Checked, later: bool = False) -> tuple[OpenQuestion, ...]:
    """What has no answer and is due; with `later` also what a later stage asks for."""
    outcomes = {Outcome.MISSING, Outcome.LATER} if later else {Outcome.MISSING}
    return tuple(_questions(checked, [one for one in _askable(checked.findings) if one.outcome in outcomes]))


def questions_by_name(checked: Checked, name: str) -> tuple[OpenQuestion, ...]:
    """The question of a rule, by its id or RULE_SET/RULE, due or not; one for each rule set that has the id."""
    named = [one for one in checked.findings if one.kind in _KINDS and name in (one.rule, f"{one.rule_set}/{one.rule}")]
    there = [one for one in named if one.outcome is not Outcome.NOT_APPLICABLE]
    return tuple(_questions(checked, list(_askable(there)) or there))


def question_names(checked: Checked) -> tuple[str, ...]:
    """How an entry names each rule that asks a person."""
    return tuple(
        _name(rule, _shared(checked)) for one in checked.rule_sets for rule in one.rules if rule.kind in _KINDS
    )


def entry_name(checked: Checked, rule: Rule) -> str:
    """How an entry names a rule that asks a person."""
    return _name(rule, _shared(checked))


def _askable(findings: Sequence[Finding]) -> Iterator[Finding]:
    for one in findings:
        held = one.reason.held if isinstance(one.reason, NotDue) else one.reason
        if one.kind in _KINDS and isinstance(held, _UNANSWERED):
            yield one


def _questions(checked: Checked, findings: Sequence[Finding]) -> Iterator[OpenQuestion]:
    shared = _shared(checked)
    subjects: dict[tuple[str, str], list[str]] = {}
    for one in findings:
        subjects.setdefault((one.rule_set, one.rule), []).append(one.subject)
    for rule_set in checked.rule_sets:
        for rule in rule_set.rules:
            if marks := subjects.get((rule_set.id, rule.id)):
                asks, evidence = _words(rule)
                yield OpenQuestion(
                    _KINDS[rule.kind],
                    name=_name(rule, shared),
                    rule=rule,
                    asks=asks,
                    evidence=evidence,
                    subjects=tuple(dict.fromkeys(marks)),
                )


def _words(rule: Rule) -> tuple[str, tuple[str, ...]]:
    if rule.attest is not None:
        return rule.attest.ask, tuple(rule.attest.evidence)
    assert rule.inspect is not None
    return rule.inspect.look_at, ()


def _shared(checked: Checked) -> frozenset[tuple[str, str]]:
    """Kind and id of the rules that several adopted rule sets have."""
    count = Counter((rule.kind, rule.id) for one in checked.rule_sets for rule in one.rules if rule.kind in _KINDS)
    return frozenset(key for key, times in count.items() if times > 1)


def _name(rule: Rule, shared: frozenset[tuple[str, str]]) -> str:
    return f"{rule.rule_set}/{rule.id}" if (rule.kind, rule.id) in shared else rule.id
