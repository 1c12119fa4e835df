"""One question, one answer that decides: that of adopted codes and standards first, then of guides, then of practice.

What a guide or practice says of a question that an adopted code answers is a remark. Where the code's answer is open,
the strictest of the others is the working answer. No answer is put aside for one that is milder among those that do not
bind, and none before the code has answered what does not hold by it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from compliance.findings import BINDING, STATUSES, Finding, FindingKey, Outcome, Standing
from compliance.judging.conditions.due import is_plainly_absent
from compliance.judging.reasons import GivesWay, WorkingAnswer
from compliance.model.people import AcceptedDeviation
from compliance.record import record, replace
from compliance.rules.rule_set import Rule, RuleSet

_ANSWERS = (Outcome.MEETS, Outcome.REVISE, Outcome.ENGINEER)
RuleKey = tuple[str, str]
QuestionKey = tuple[str, str, str]
"""Question, kind of subject, subject."""


@record
class Precedence:
    """Who gives way to whom in a building.

    `gives_way_to` are the questions to which a rule gives way, `answered` the rules of codes and standards that answer
    a question about a subject by limits that are known; `decided` those questions of which no adopted code leaves
    anything to ask. `replaced` names rules with those that take their place, `behind` single findings that another
    rule decides, `working` those that decide while the answer of a code is open; `called` has each rule by its title
    and clause."""

    binding: frozenset[str]
    gives_way_to: Mapping[RuleKey, tuple[str, ...]]
    answered: Mapping[QuestionKey, RuleKey]
    decided: Mapping[QuestionKey, RuleKey]
    replaced: Mapping[RuleKey, RuleKey]
    behind: Mapping[FindingKey, GivesWay]
    working: Mapping[FindingKey, RuleKey]
    called: Mapping[RuleKey, str]

    def applied(self, finding: Finding) -> Finding:
        """The finding; not applicable, with what it would be as a remark, where another rule decides."""
        if finding.outcome is Outcome.NOT_APPLICABLE:
            return finding
        way = self._way(finding)
        if way is not None:
            is_answer = finding.outcome in _ANSWERS
            return replace(
                finding, outcome=Outcome.NOT_APPLICABLE, missing=(), remedy="",
                reason=replace(
                    way, held=finding.reason if is_answer else None, called=self.called[way.rule_set, way.rule]
                ),
                remark=finding.outcome if is_answer else None,
            )  # fmt: skip
        by = self.working.get(finding.key) if finding.outcome in _ANSWERS else None
        return replace(finding, beside=(*finding.beside, WorkingAnswer(*by, called=self.called[by]))) if by else finding

    def _way(self, finding: Finding) -> GivesWay | None:
        key = (finding.rule_set, finding.rule)
        if key in self.replaced:
            return GivesWay(*self.replaced[key], how="place")
        for question in self.gives_way_to.get(key, ()):
            by = self.answered.get((question, finding.about, finding.subject))
            if by is not None and by[0] != finding.rule_set:
                return GivesWay(*by)
        if finding.question and finding.rule_set not in self.binding:
            by = self.decided.get(question_of(finding))
            if by is not None:
                return GivesWay(*by)
        return self.behind.get(finding.key)


def precedence_of(
    rule_sets: Iterable[RuleSet], findings: Iterable[Finding], accepted: Iterable[AcceptedDeviation] = ()
) -> Precedence:
    """What is not known or lacks a value answers nothing, nor does what an official `accepted` outside its limit.
    `findings` are as the rules judged them, or as they stand with what another rule decides put aside."""
    known_so_far = tuple(findings)
    adopted = tuple(rule_sets)
    binding = frozenset(one.id for one in adopted if one.status in BINDING)
    gives_way = {(one.id, rule.id): rule.gives_way_to for one in adopted for rule in one.rules if rule.gives_way_to}
    replaced = _replaced(adopted)
    deviations = {(one.rule_set, one.rule, one.about) for one in accepted}
    groups: dict[QuestionKey, list[Finding]] = {}
    behind: dict[FindingKey, GivesWay] = {}
    for one in known_so_far:
        if isinstance(one.reason, GivesWay) and one.reason.how in ("asks", "first", "stricter"):
            behind[one.key] = replace(one.reason, held=None)
        if one.question and one.outcome is not Outcome.NOT_APPLICABLE and (one.rule_set, one.rule) not in replaced:
            groups.setdefault(question_of(one), []).append(one)
    answered: dict[QuestionKey, RuleKey] = {}
    decided: dict[QuestionKey, RuleKey] = {}
    working: dict[FindingKey, RuleKey] = {}
    for question, group in groups.items():
        of_code = [one for one in group if one.rule_set in binding]
        known = [one for one in of_code if _is_known(one) and (one.rule_set, one.rule, one.subject) not in deviations]
        if known:
            answered[question] = known[0].rule_set, known[0].rule
        if known and len(known) == len(of_code):
            strictest = min(known, key=_strictness)
            decided[question] = strictest.rule_set, strictest.rule
        elif len(of_code) < len(group):
            others = [one for one in group if one.rule_set not in binding]
            behind |= _asked(of_code, others)
            left = [one for one in others if one.key not in behind]
            behind |= _outdone([one for one in left if (one.rule_set, one.rule, one.subject) not in deviations])
            opened = [one for one in of_code if one.outcome is Outcome.CONFIRM]
            if opened:
                by = opened[0].rule_set, opened[0].rule
                working |= {one.key: by for one in left if one.key not in behind}
    behind |= _waiting(adopted, known_so_far)
    return Precedence(
        binding, gives_way, answered=answered, decided=decided, replaced=replaced, behind=behind, working=working,
        called={(one.id, rule.id): f"{rule.title} ({rule.clause})" for one in adopted for rule in one.rules},
    )  # fmt: skip


def _waiting(rule_sets: Sequence[RuleSet], findings: Sequence[Finding]) -> dict[FindingKey, GivesWay]:
    """Those that lack something, or whose limit is open, while a rule of the same set about the wall, which is due no
    later, lacks its own value: that one asks first."""
    waits = {(one.id, rule.id): rule.waits_for for one in rule_sets for rule in one.rules if rule.waits_for}
    if not waits:
        return {}
    first = {(rule_set, name) for (rule_set, _), names in waits.items() for name in names}
    asking = {
        (one.rule_set, one.rule, one.wall): one
        for one in findings
        if (one.rule_set, one.rule) in first and one.outcome is Outcome.MISSING and is_plainly_absent(one)
    }
    found = {}
    for one in findings:
        if one.outcome not in (Outcome.MISSING, Outcome.CONFIRM):
            continue
        for name in waits.get((one.rule_set, one.rule), ()):
            other = asking.get((one.rule_set, name, one.wall))
            if other is not None and one.stage.asks_for(other.stage):
                found[one.key] = GivesWay(other.rule_set, other.rule, how="first")
    return found


def _replaced(rule_sets: Sequence[RuleSet]) -> dict[RuleKey, RuleKey]:
    """The rules whose place another adopted rule takes; none that an amendment gave a limit of its own."""
    rules = {f"{one.id}/{rule.id}": rule for one in rule_sets for rule in one.rules}
    found: dict[RuleKey, RuleKey] = {}
    for rule in rules.values():
        others = [rules[path] for path in rule.replaced_by if path in rules]
        if others and not _is_amended(rule):
            found[rule.rule_set, rule.id] = others[0].rule_set, others[0].id
    return found


def _is_amended(rule: Rule) -> bool:
    limits = any(limit.history for limit in rule.limits.values())
    return limits or any(table.history for table in rule.tables.values())


def _asked(of_code: Sequence[Finding], others: Sequence[Finding]) -> dict[FindingKey, GivesWay]:
    """Those that lack what an adopted code asks for, no later than they do: one of them asks. Whatever does not hold
    stays until the code has answered."""
    asking = [one for one in of_code if one.outcome is Outcome.MISSING and is_plainly_absent(one)]
    found = {}
    for one in others:
        if one.outcome is Outcome.MISSING and is_plainly_absent(one) and not one.beside:
            sooner = [other for other in asking if one.stage.asks_for(other.stage)]
            if sooner:
                found[one.key] = GivesWay(sooner[0].rule_set, sooner[0].rule, how="asks")
    return found


def _outdone(answers: Sequence[Finding]) -> dict[FindingKey, GivesWay]:
    """Those of guides and practice than which another rule has a stricter answer, or one as strict; those that lack no
    more than another does."""
    if len(answers) < 2:
        return {}
    first = min(answers, key=_strictness)
    others = [one for one in answers if one is not first]
    if first.outcome in _ANSWERS:
        way = GivesWay(first.rule_set, first.rule, how="stricter")
        return {one.key: way for one in others if one.outcome in _ANSWERS}
    way = GivesWay(first.rule_set, first.rule, how="asks")
    return {one.key: way for one in others if _lacks_no_more(one, first)}


def _lacks_no_more(one: Finding, other: Finding) -> bool:
    if not (one.outcome is other.outcome is Outcome.MISSING and one.stage.asks_for(other.stage)) or one.beside:
        return False
    plain = is_plainly_absent(one) and is_plainly_absent(other)
    return plain and bool(one.missing) and set(one.missing) <= set(other.missing)


def _is_known(finding: Finding) -> bool:
    return finding.outcome in _ANSWERS and all(limit.standing is not Standing.OPEN for limit in finding.limits)


def _strictness(one: Finding) -> tuple[int, float, bool, int]:
    """The worse outcome first, then the one with less margin left, then one that says what to change, then a guide
    before practice. Margins that differ by rounding alone are alike: else a building moved by a yard would be decided
    by another rule."""
    margin = math.inf if one.margin is None or math.isnan(one.margin) else round(one.margin, 6)
    return one.outcome.rank, margin, not one.remedy, STATUSES.index(one.status)


def question_of(finding: Finding) -> QuestionKey:
    return finding.question, finding.about, finding.subject
