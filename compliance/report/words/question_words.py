"""Why one answer to a question governs, in words."""

from __future__ import annotations

from compliance.judging.questions import GovernsBy, Question


def governing_words(question: Question, name: str) -> str:
    """One sentence; `name` is what the answer that governs is called: the code of its rule, or its rule set."""
    outcome = question.governs.outcome.words
    return {
        GovernsBy.BINDING: f"{name} decides ({outcome}); the others are remarks",
        GovernsBy.OUTCOME: f"{name} governs: its answer is the worse one ({outcome})",
        GovernsBy.MARGIN: f"{name} governs: it leaves the least margin",
        GovernsBy.NOTHING: f"all answers are alike ({outcome})",
    }[question.governs_by]
