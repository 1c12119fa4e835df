"""Findings gathered by rule, in the order of the rule sets, each rule with the short code that names it."""

from __future__ import annotations

from collections import defaultdict

from compliance.checked import Checked
from compliance.findings import Finding, LimitUsed, Outcome
from compliance.record import record
from compliance.rules.rule_set import RuleSet

_SET_ASIDE = (Outcome.LATER, Outcome.NOT_APPLICABLE)
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # without I and O, which look like figures


@record
class RuleFindings:
    """All findings of one rule. `code` is the letter of its rule set and its number in it: "A12"."""

    code: str
    rule_set: str
    rule: str
    findings: tuple[Finding, ...]

    @property
    def key(self) -> str:
        """The place in the document where the rule is reported."""
        return f"rule-{self.code}"

    @property
    def heading(self) -> str:
        return f"{self.code}  ·  {self.first.clause}  ·  {self.first.title}"

    @property
    def first(self) -> Finding:
        return self.findings[0]

    @property
    def judged(self) -> tuple[Finding, ...]:
        return tuple(one for one in self.findings if one.outcome not in _SET_ASIDE)

    @property
    def set_aside(self) -> tuple[Finding, ...]:
        """Those that do not apply, and those that are not due yet."""
        return tuple(one for one in self.findings if one.outcome in _SET_ASIDE)

    @property
    def limits(self) -> tuple[LimitUsed, ...]:
        """Each limit once."""
        return tuple(dict.fromkeys(limit for one in self.findings for limit in one.limits))


@record
class SetFindings:
    """The findings of one rule set. `silent` are the codes of its rules that had nothing to judge."""

    letter: str
    rule_set: RuleSet
    rules: tuple[RuleFindings, ...]
    silent: tuple[str, ...]

    @property
    def heading(self) -> str:
        return f"{self.letter}  ·  {self.rule_set.title}"


def by_rule(checked: Checked) -> tuple[SetFindings, ...]:
    """Every finding of `checked`, none left out. Raises ValueError for one of an unknown rule."""
    found: dict[tuple[str, str], list[Finding]] = defaultdict(list)
    for finding in checked.findings:
        found[finding.rule_set, finding.rule].append(finding)
    sets = []
    for index, rule_set in enumerate(checked.rule_sets):
        letter = _letter(index)
        groups, silent = [], []
        for number, rule in enumerate(rule_set.rules, start=1):
            code = f"{letter}{number}"
            findings = found.pop((rule_set.id, rule.id), None)
            if findings:
                groups.append(RuleFindings(code, rule_set.id, rule.id, tuple(findings)))
            else:
                silent.append(code)
        sets.append(SetFindings(letter, rule_set, tuple(groups), tuple(silent)))
    if found:
        raise ValueError(f"findings of rules that no rule set has: {sorted(found)}")
    return tuple(sets)


def _letter(index: int) -> str:
    """A, B ... Z, then AA, AB ..."""
    high, low = divmod(index, len(_LETTERS))
    return (_LETTERS[high - 1] if high else "") + _LETTERS[low]
