"""Shipped rule sets as a check reads them: all but their examples, every part at its own line."""

from __future__ import annotations

import pytest

from compliance.reading.rule_files.rule_library import Library, read_shipped, shipped_rule_sets
from compliance.record import replace
from compliance.rules.rule_set import RuleSet


def without_examples(rule_set: RuleSet) -> RuleSet:
    return replace(rule_set, rules=tuple(replace(rule, examples=()) for rule in rule_set.rules))


@pytest.mark.parametrize("name", shipped_rule_sets())
def test_a_check_reads_all_but_the_examples(name: str) -> None:
    library = Library(to_judge=True)
    read, whole = library.read(*library.find(name)), read_shipped(name)
    assert read == without_examples(whole)
    assert [rule.place for rule in read.rules] == [rule.place for rule in whole.rules]
    assert [limit.place for rule in read.rules for limit in rule.limits.values()] == [
        limit.place for rule in whole.rules for limit in rule.limits.values()
    ]
    assert any(rule.examples for rule in whole.rules)
