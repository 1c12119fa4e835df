"""What is due where a project stands, and what is later.

Only what is plainly absent can be later: a field, a test, an answer, an inspection, or a limit nobody has read, of a
rule whose stage is still to come. What is wrong now, and all that is for an engineer or to revise, stays.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from compliance.findings import Finding, Lack, Missing, Outcome
from compliance.judging.reasons import BeforeTheWork, Lacks, NoAnswer, NotDue, NotRecorded
from compliance.judging.set_reasons import NoResult, NoRows, NoSetPasses, NoTest
from compliance.model.project import Project
from compliance.record import record, replace
from compliance.stages import UNSTATED, Stage

BEFORE_PLACING = ("trench", "footing", "stem", "moisture-break", "mix")
"""Stages of the inspection plan that come before earth is placed; all others come after it has begun."""

_ABSENT = (Lacks, NoAnswer, NoTest, NoRows, NoResult, NoSetPasses)


@record
class ReachedStage:
    """The stage that a project is asked at. `stated` is what the project says of itself; `because` tells why it is
    asked for more than that, empty where it is not."""

    stage: Stage = UNSTATED
    stated: Stage | None = None
    because: str = ""


def find_reached_stage(
    project: Project, points: Mapping[str, Sequence[str]], wanted: Stage | None = None, at_least: Stage = Stage.EARTH
) -> ReachedStage:
    """The stage a project states, or the one that is wanted in its place; not before `at_least`, not before the design
    where walls are described, and not before placing where earth was placed. `points` are the adopted inspection rules
    of each stage of the work."""
    stated = Stage(project.project.stage) if project.project.stage else None
    stage = wanted or stated or UNSTATED
    begun = _work_begun(project, points)
    for least, because in (
        (Stage.BEFORE_PLACING, begun),
        (Stage.DESIGN, "walls are described" if project.walls else ""),
    ):
        if because and not stage.asks_for(least):
            return ReachedStage(max(least, at_least, key=lambda one: one.rank), stated, because)
    return ReachedStage(max(stage, at_least, key=lambda one: one.rank), stated)


def _work_begun(project: Project, points: Mapping[str, Sequence[str]]) -> str:
    """What shows that earth was placed; empty where nothing does."""
    today = project.project.date
    placed = [(wall.placed_from, mark) for mark, wall in project.walls.items() if wall.placed_from]
    done = sorted((day, mark) for day, mark in placed if day <= today)
    if done:
        day, mark = done[0]
        return f"{mark} was placed from {day}"
    after = {rule for stage, rules in points.items() if stage not in BEFORE_PLACING for rule in rules}
    looked_at = sorted((one.on, one.rule) for one in project.inspections if one.rule_id in after and one.on <= today)
    return f"{looked_at[0][1]} was inspected on {looked_at[0][0]}" if looked_at else ""


def due_at(findings: Iterable[Finding], stage: Stage, inspections: str) -> tuple[Finding, ...]:
    """The findings as they stand for a project at a stage. `inspections` is the file inspections are recorded in."""
    lacks = (Missing(Lack.FIELD, ("inspections",), inspections),)
    return tuple(_due(one, stage, lacks) for one in findings)


def _due(finding: Finding, stage: Stage, lacks: tuple[Missing, ...]) -> Finding:
    reason, is_due = finding.reason, stage.asks_for(finding.stage)
    if isinstance(reason, BeforeTheWork) and is_due:
        return replace(finding, outcome=Outcome.MISSING, reason=NotRecorded(reason.point, reason.stage), missing=lacks)
    if is_due or not _can_wait(finding):
        return finding
    later = NotDue(reason, finding.outcome.value, finding.stage.value)
    return replace(finding, outcome=Outcome.LATER, reason=later)


def _can_wait(finding: Finding) -> bool:
    """Whether nothing is wrong now: it is only absent."""
    reason = finding.reason
    match finding.outcome:
        case Outcome.CONFIRM:
            return True
        case Outcome.NOT_APPLICABLE:
            return isinstance(reason, BeforeTheWork)
        case Outcome.MISSING:
            return is_plainly_absent(finding) and not _is_explained(finding)
    return False


def is_plainly_absent(finding: Finding) -> bool:
    """Whether something is not there, as told from what is there and speaks against itself or cannot be used."""
    reason = finding.reason
    return isinstance(reason, _ABSENT) and not (isinstance(reason, NoResult) and reason.aside)


def _is_explained(finding: Finding) -> bool:
    """Whether a fact says more of what lacks than that it is absent, such as a day that speaks against another, or the
    finding names something beside it."""
    return bool(finding.beside) or (isinstance(finding.reason, Lacks) and bool(finding.reason.because))


def as_judged(finding: Finding) -> Finding:
    """The finding as the rule judged it, whatever is due."""
    reason = finding.reason
    if isinstance(reason, NotDue):
        return replace(finding, outcome=Outcome(reason.outcome), reason=reason.held)
    if isinstance(reason, NotRecorded):
        held = BeforeTheWork(reason.point, reason.stage)
        return replace(finding, outcome=Outcome.NOT_APPLICABLE, reason=held, missing=())
    return finding
