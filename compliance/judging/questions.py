"""The same question answered by several rule sets, side by side: the stricter answer governs."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from compliance.findings import Finding, Outcome
from compliance.record import record


@record
class Question:
    """`findings` of one subject on one question, from different rules, in the order of judging."""

    id: str
    subject: str
    wall: str
    findings: tuple[Finding, ...]
    governs: Finding
    reason: str

    @property
    def title(self) -> str:
        return self.id.replace("-", " ")


def side_by_side(findings: Sequence[Finding]) -> tuple[Question, ...]:
    """Every question that rules of more than one rule set answer for a subject, without answers that do not apply."""
    by_question: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.question and finding.outcome is not Outcome.NOT_APPLICABLE:
            by_question.setdefault(finding.question, []).append(finding)
    return tuple(one for question, answers in by_question.items() for one in _by_subject(question, answers))


def _by_subject(question: str, answers: Sequence[Finding]) -> Iterator[Question]:
    first = answers[0].rule_set
    if all(one.rule_set == first for one in answers):
        return
    each: dict[tuple[str, str], list[Finding]] = {}
    for one in answers:
        each.setdefault((one.about, one.subject), []).append(one)
    for (_, subject), found in each.items():
        if any(one.rule_set != found[0].rule_set for one in found):
            yield _question(question, subject, found)


def _question(question: str, subject: str, answers: list[Finding]) -> Question:
    """The worse outcome governs; among equal outcomes the one with less margin left, then the less known one."""
    governs = min(answers, key=lambda one: (one.outcome.rank, _margin(one), not one.wants_confirming))
    others = [one for one in answers if one is not governs]
    if any(one.outcome is not governs.outcome for one in others):
        reason = f"{governs.rule_set} governs: its answer is the worse one ({governs.outcome.words})"
    elif any(not math.isclose(_margin(one), _margin(governs), abs_tol=1e-9) for one in others):
        reason = f"{governs.rule_set} governs: it leaves the least margin"
    else:
        reason = f"all answers are alike ({governs.outcome.words})"
    return Question(question, subject, governs.wall, tuple(answers), governs, reason)


def _margin(one: Finding) -> float:
    """One without a margin comes after all that have one."""
    return math.inf if one.margin is None else one.margin
