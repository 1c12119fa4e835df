"""Which rule decides after a change: of all that answer one question about one subject, only one stays in force."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from compliance.findings import Finding, FindingKey, Outcome
from compliance.judging.conditions.giving_way import Precedence, RuleKey, precedence_of, question_of
from compliance.judging.reasons import GivesWay
from compliance.model.people import AcceptedDeviation
from compliance.rules.rule_set import Rule, RuleSet


class DecidingAnswers:
    """Decides anew among the answers to a question where a change alters any of them.

    `before` are the findings of the building as it stands, with what another rule decides put aside; `judge_again`
    gives one of them as its own rule judged it, whatever decides.
    """

    def __init__(
        self,
        rule_sets: Sequence[RuleSet],
        accepted: Sequence[AcceptedDeviation],
        before: Mapping[FindingKey, Finding],
        judge_again: Callable[[FindingKey], Finding],
    ) -> None:
        self._rule_sets, self._accepted = rule_sets, accepted
        self._before, self._judge_again = before, judge_again
        self._asking: dict[tuple[str, str], list[RuleKey]] = {}
        self._giving_way: dict[tuple[str, str], list[RuleKey]] = {}
        for rule in (rule for one in rule_sets for rule in one.rules):
            if rule.question:
                self._asking.setdefault((rule.question, rule.about), []).append((rule.rule_set, rule.id))
            for question in rule.gives_way_to:
                self._giving_way.setdefault((question, rule.about), []).append((rule.rule_set, rule.id))

    def asking_the_same(self, rule: Rule) -> tuple[RuleKey, ...]:
        """The rules that answer the question of a rule, itself among them."""
        return tuple(self._asking.get((rule.question, rule.about), ())) or ((rule.rule_set, rule.id),)

    def among(self, answers: Iterable[Finding], of: FindingKey) -> Finding | None:
        """Of all answers to one question that of one rule, or where it holds, the one in force."""
        found = {one.key: one for one in answers}
        own = found.get(of)
        if own is None or own.outcome is not Outcome.MEETS:
            return own
        precedence = self._precedence(found.values())
        return deciding({key: precedence.applied(one) for key, one in found.items()}, of)

    def after(self, judged: Mapping[FindingKey, Finding]) -> dict[FindingKey, Finding]:
        """Those that were judged again, and those that answer or give way to the same questions, as they then stand."""
        concerned = dict(judged)
        for question, about, subject in {question_of(one) for one in judged.values() if one.question}:
            for rule in (*self._asking.get((question, about), ()), *self._giving_way.get((question, about), ())):
                key = (*rule, about, subject)
                if key not in concerned and key in self._before:
                    concerned[key] = self._alone(key)
        precedence = self._precedence({**self._before, **concerned}.values())
        return {key: precedence.applied(one) for key, one in concerned.items()}

    def _alone(self, key: FindingKey) -> Finding:
        one = self._before[key]
        return self._judge_again(key) if isinstance(one.reason, GivesWay) else one

    def _precedence(self, findings: Iterable[Finding]) -> Precedence:
        return precedence_of(self._rule_sets, findings, self._accepted)


def deciding(findings: Mapping[FindingKey, Finding], of: FindingKey) -> Finding | None:
    """A finding, or the one about the same subject that it gives way to; None where there is no such finding."""
    one = findings.get(of)
    if one is not None and isinstance(one.reason, GivesWay):
        return findings.get((one.reason.rule_set, one.reason.rule, one.about, one.subject), one)
    return one
