"""Figures of practice that give way to what an adopted code says of the same subject."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from compliance.findings import Finding, Outcome, Standing
from compliance.judging.context import NO_NUMBERS
from compliance.judging.reasons import GivesWay
from compliance.record import record, replace
from compliance.rules.rule_set import RuleSet

_ANSWERS = (Outcome.MEETS, Outcome.REVISE, Outcome.ENGINEER)
RuleKey = tuple[str, str]


@record
class Precedence:
    """The questions to which each rule gives way, and who answers each question about each subject."""

    gives_way_to: Mapping[RuleKey, tuple[str, ...]]
    answered: Mapping[tuple[str, str, str], RuleKey]

    def applied(self, finding: Finding) -> Finding:
        """The finding; not applicable where a rule of another set, by limits that are known, answers a question that
        its rule gives way to."""
        for question in self.gives_way_to.get((finding.rule_set, finding.rule), ()):
            by = self.answered.get((question, finding.about, finding.subject))
            if by is not None and by[0] != finding.rule_set and finding.outcome is not Outcome.NOT_APPLICABLE:
                return replace(
                    finding, outcome=Outcome.NOT_APPLICABLE, reason=GivesWay(*by), missing=(), remedy="",
                    value=NO_NUMBERS.value, relation="", limit=NO_NUMBERS.limit, margin=None,
                )  # fmt: skip
        return finding


def precedence_of(rule_sets: Iterable[RuleSet], findings: Iterable[Finding]) -> Precedence:
    """Who gives way to whom in a building. What is not known, lacks a value or is a guide's or practice's own answers
    nothing."""
    adopted = tuple(rule_sets)
    gives_way = {(one.id, rule.id): rule.gives_way_to for one in adopted for rule in one.rules if rule.gives_way_to}
    questions = {question for found in gives_way.values() for question in found}
    binding = {one.id for one in adopted if one.status in ("code", "standard")}
    answered: dict[tuple[str, str, str], RuleKey] = {}
    for one in findings if questions else ():
        known = one.outcome in _ANSWERS and all(limit.standing is not Standing.OPEN for limit in one.limits)
        if one.question in questions and one.rule_set in binding and known:
            answered.setdefault((one.question, one.about, one.subject), (one.rule_set, one.rule))
    return Precedence(gives_way, answered)
