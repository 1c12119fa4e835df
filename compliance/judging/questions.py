"""The same question answered by several rule sets, side by side: the strictest binding answer governs."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from enum import StrEnum

from compliance.findings import STATUSES, Finding, Outcome
from compliance.record import record


class GovernsBy(StrEnum):
    """What makes one answer govern."""

    BINDING = "binding"  # the others are remarks of guides and practice
    OUTCOME = "outcome"  # it is the worse one
    MARGIN = "margin"  # among equal outcomes it leaves the least margin
    NOTHING = "nothing"  # all answers are alike


@record
class Question:
    """`findings` of one subject on one question, from different rules: of codes and standards first, then of guides,
    then of practice, each in the order of judging. Those with a `remark` decide nothing."""

    id: str
    subject: str
    wall: str
    findings: tuple[Finding, ...]
    governs: Finding
    governs_by: GovernsBy

    @property
    def title(self) -> str:
        return self.id.replace("-", " ")


def side_by_side(findings: Sequence[Finding]) -> tuple[Question, ...]:
    """Every question that rules of more than one rule set answer for a subject, without answers that do not apply."""
    by_question: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.question and (finding.remark is not None or finding.outcome is not Outcome.NOT_APPLICABLE):
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
        if any(one.rule_set != found[0].rule_set for one in found) and any(one.remark is None for one in found):
            yield _question(question, subject, sorted(found, key=lambda one: STATUSES.index(one.status)))


def _question(question: str, subject: str, answers: list[Finding]) -> Question:
    """The worse outcome governs; among equal outcomes the one with less margin left, then the less known one."""
    deciding = [one for one in answers if one.remark is None]
    governs = min(deciding, key=lambda one: (one.outcome.rank, _margin(one), not one.wants_confirming))
    others = [one for one in deciding if one is not governs]
    if not others:
        by = GovernsBy.BINDING
    elif any(one.outcome is not governs.outcome for one in others):
        by = GovernsBy.OUTCOME
    elif any(not math.isclose(_margin(one), _margin(governs), abs_tol=1e-9) for one in others):
        by = GovernsBy.MARGIN
    else:
        by = GovernsBy.NOTHING
    return Question(
        id=question, subject=subject, wall=governs.wall, findings=tuple(answers), governs=governs, governs_by=by
    )


def _margin(one: Finding) -> float:
    """One without a margin comes after all that have one."""
    return math.inf if one.margin is None else one.margin
