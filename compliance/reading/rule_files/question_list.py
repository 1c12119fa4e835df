"""The shipped list of questions."""

from __future__ import annotations

from compliance.reading.reference_files.support_rules import read_reference
from compliance.rules.question import ListedQuestion


def read_questions() -> dict[str, ListedQuestion]:
    """The shipped list by id, in its order. Raises ProblemsFound."""
    listed = read_reference("questions")["questions"]
    return {name: ListedQuestion(name, str(one["about"]), str(one["asks"])) for name, one in listed.items()}
