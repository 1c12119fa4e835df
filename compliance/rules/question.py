"""The questions that rules answer, so that the same question bears the same name in every rule set."""

from __future__ import annotations

from compliance.record import record
from compliance.rules.rule_set import Rule
from compliance.rules.schema import RuleText

OWN = "own-"
"""How a question begins that is not in the list."""


@record
class ListedQuestion:
    """A question: what the findings that answer it are about, and what it asks, to follow "It asks"."""

    id: str
    about: str
    asks: str


def answered_about(rule: Rule | RuleText) -> str:
    """What the findings of a rule are about: those of a test rule are about sets."""
    return "set" if rule.test else rule.about
