"""The list of questions that rules answer, so that the same question bears the same name in every rule set."""

from __future__ import annotations

from compliance.reading.reference_files.support_rules import read_reference
from compliance.record import record
from compliance.rules.rule_set import Rule

OWN = "own-"
"""How a question begins that is not in the list."""


@record
class Asked:
    """A question: what the findings that answer it are about, and what it asks, to follow "It asks"."""

    id: str
    about: str
    asks: str


def read_questions() -> dict[str, Asked]:
    """The shipped list by id, in its order. Raises ProblemsFound."""
    listed = read_reference("questions")["questions"]
    return {name: Asked(name, str(one["about"]), str(one["asks"])) for name, one in listed.items()}


def answered_about(rule: Rule) -> str:
    """What the findings of a rule are about: those of a test rule are about sets."""
    return "set" if rule.test else rule.about
