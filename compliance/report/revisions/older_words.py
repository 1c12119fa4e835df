"""The reasons of a record written by an older version, without the ids of rules and rule sets that it named them by."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TypeVar

from compliance.model.issued import FindingsRecord
from compliance.rules.rule_set import RuleSet

Kept = TypeVar("Kept", bound=FindingsRecord)
NO_LONGER = "a check no longer in the rules"
_ID = r"[a-z0-9]+(?:-[a-z0-9]+)+"


def without_ids(record: Kept, rule_sets: Sequence[RuleSet]) -> Kept:
    """The record with titles in its reasons: those of `rule_sets`, and other words for a rule that none of them has any
    more."""
    sets = {one.rule_set: one.title for one in record.rule_sets} | {one.id: one.title for one in rule_sets}
    titles = dict.fromkeys((one.rule for one in record.findings), NO_LONGER)
    titles |= {rule.id: rule.title for one in rule_sets for rule in one.rules}
    named = _Named(sets, titles)
    findings = [one.model_copy(update={"reason": named.in_words(one.reason)}) for one in record.findings]
    return record.model_copy(update={"findings": findings})


class _Named:
    """Titles of rule sets and rules by their ids."""

    def __init__(self, sets: Mapping[str, str], titles: Mapping[str, str]) -> None:
        self._sets, self._titles = sets, titles
        self._rule_of_set = re.compile(rf"(?<![\w-])({_any_of(sets)})(?:, |/)({_ID})(?![\w-])")
        self._rule_named = re.compile(rf"(?<=answers this: )({_ID})(?![\w-])|(?<=its inspection )({_ID})(?![\w-])")
        # "height-to-thickness" is plain English; an id with one hyphen, "bond-beam", may be in any sentence.
        plain = {one for one, title in titles.items() if one.count("-") < 2 or title.lower().startswith(one)}
        self._alone = re.compile(rf"(?<![\w/-])({_any_of([*sets, *(titles.keys() - plain)])})(?![\w-])")

    def in_words(self, reason: str) -> str:
        found = self._rule_of_set.sub(lambda each: f"{self._title(each[2])} ({self._sets[each[1]]})", reason)
        found = self._rule_named.sub(lambda each: self._title(each[0]), found)
        return self._alone.sub(lambda each: self._sets.get(each[0]) or self._title(each[0]), found)

    def _title(self, rule: str) -> str:
        return self._titles.get(rule, NO_LONGER)


def _any_of(ids: Iterable[str]) -> str:
    return "|".join(re.escape(one) for one in sorted(ids, key=len, reverse=True)) or "(?!)"
