"""What speaks against a person's yes: its day beside other days, and the evidence it names."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import PurePath

from compliance.facts.geometry.subjects import Subject
from compliance.judging.conditions.due import BEFORE_PLACING
from compliance.judging.context import Context
from compliance.model.people import Attachment, Attestation, InspectionRecord
from compliance.model.project import Project
from compliance.model.walls import Wall
from compliance.rules.rule_set import Rule
from compliance.rules.schema import STAGES

_OF_THE_WORK = frozenset({"photo", "measurement"})
"""Evidence that only work already done can give."""
_PICTURES = (".jpg", ".jpeg", ".png", ".heic", ".heif", ".tif", ".tiff", ".webp")
_DRY, _DRY_STAGE = "dry-before-load", "before-roof"


def against_answer(context: Context, rule: Rule, answer: Attestation, subject: Subject) -> str:
    """Why a yes cannot stand as it is; empty where it can."""
    assert rule.attest is not None
    wanted = rule.attest.evidence
    return (
        _against_day(context, answer)
        or _against_evidence(context, wanted, answer)
        or (_against_set(context, answer, subject) if subject.about == "set" else "")
        or (_against_mix(context, answer, subject) if subject.about == "mix" and answer.about is None else "")
        or (_before_the_work(context, answer, subject) if wanted and _OF_THE_WORK.issuperset(wanted) else "")
        or _uninspected(context, rule.question, answer, subject)
        or _changed_since(context, answer, subject)
    )


def against_inspection(context: Context, stage: str, record: InspectionRecord, subject: Subject) -> str:
    """Why a point that was passed cannot have been passed on that day; empty where it can."""
    against = _against_day(context, record)
    placed = _placed(context, subject)
    if against or not placed:
        return against
    day, wall = placed[0]
    if stage in BEFORE_PLACING and record.on > day:
        return f"{wall} was placed from {day}, before that"
    if stage not in BEFORE_PLACING and record.on < day:
        return f"{wall} was placed from {day}, after that"
    return ""


def against_waiting(context: Context, stage: str, point: str, subject: Subject) -> str:
    """Why a hold point can no longer wait: earth was placed on what it looks at, or a later point of the same work was
    passed. Empty where it can."""
    if point != "hold":
        return ""
    placed = _placed(context, subject) if stage in BEFORE_PLACING else []
    if placed and placed[0][0] <= context.project.project.date:
        return f"no record of it, and {placed[0][1]} was placed from {placed[0][0]}"
    return _passed_over(context, stage, subject)


def _passed_over(context: Context, stage: str, subject: Subject) -> str:
    """A later point of the same work that was passed, and when."""
    project = context.project
    later = {rule for name in STAGES[STAGES.index(stage) + 1 :] for rule in context.points.get(name, ())}
    walls = {mark for mark, wall in project.walls.items() if _concerns(mark, wall, subject)}
    passed = [
        one for one in project.inspections
        if one.passed and one.rule_id in later and one.on <= project.project.date
        and (one.about in (None, subject.mark) or not walls.isdisjoint(_walls_of(project, str(one.about))))
    ]  # fmt: skip
    if not passed:
        return ""
    first = min(passed, key=lambda one: one.on)
    what = f"{first.rule} of {first.about}" if first.about else first.rule
    return f"no record of it, and {what}, a later point, was passed on {first.on}"


def _walls_of(project: Project, mark: str) -> set[str]:
    """The walls that a mark is of: the wall itself, that of an opening or pier, those that stand on or bear a part."""
    own = mark.partition(".")[0]
    parts = [(name, (wall.stem, wall.footing, wall.beam, wall.mix)) for name, wall in project.walls.items()]
    return {name for name, used in parts if name == own or mark in used}


def _uninspected(context: Context, question: str, answer: Attestation, subject: Subject) -> str:
    """Said to be found in placed earth, while the inspection that looks at it has no record."""
    rules = context.points.get(_DRY_STAGE, ()) if question == _DRY else ()
    placed = _placed(context, subject)
    if not rules or (placed and answer.on < placed[0][0]):
        return ""
    if any(one.rule_id in rules and one.passed for one in context.project.inspections):
        return ""
    return "no record that its inspection before the roof passed"


def _against_day(context: Context, record: Attestation | InspectionRecord) -> str:
    today = context.project.project.date
    if record.on > today:
        return f"that is after the project's own day {today}: correct the day, or date the project anew"
    if context.oldest_paper is not None and (today - record.on).days > context.oldest_paper:
        return f"that is {(today - record.on).days // 365} years before the project's own day {today}"
    return ""


def _against_evidence(context: Context, wanted: Sequence[str], answer: Attestation) -> str:
    """One piece of evidence of a kind that is asked for, and with a day, is enough."""
    if not wanted or "none" in wanted or not answer.evidence:
        return ""
    attached = [context.project.attachments[mark] for mark in answer.evidence]
    of_kind = [one for one in attached if kinds_of(one) & set(wanted)]
    if not of_kind:
        kind = " or ".join(wanted)
        return f"it asks for a {kind}, and {attached[0].title} is not said to be one"
    if all(one.date is None for one in of_kind):
        return f"the evidence {of_kind[0].title} has no date"
    today = context.project.project.date
    if all(one.date is None or one.date > today for one in of_kind):
        return f"the evidence {of_kind[0].title} is dated {of_kind[0].date}, after the project's own day {today}"
    return ""


def kinds_of(attachment: Attachment) -> set[str]:
    """What an attachment can be evidence as: what it says, else a picture is a photo and a paper anything written."""
    if attachment.kind is not None:
        return {attachment.kind}
    return {"photo"} if PurePath(attachment.file).suffix.lower() in _PICTURES else {"document", "measurement"}


def _against_set(context: Context, answer: Attestation, subject: Subject) -> str:
    days = [one.cast for one in context.specimens.get(subject.mark, ())]
    known = [day for day in days if day is not None]
    if known and answer.on < max(known):
        return f"{subject.mark} was cast on {max(known)}, after that"
    if answer.about is None and not known:
        return f"it does not name {subject.mark}, whose days of casting are not given: name it under about"
    return ""


def _against_mix(context: Context, answer: Attestation, subject: Subject) -> str:
    """A mix that came after a general answer."""
    project = context.project
    days = [batch.mixed for batch in project.batches.values() if batch.mix == subject.mark]
    days += [one.cast for mark, test in project.test_sets.items() if test.mix == subject.mark
             for one in context.specimens.get(mark, ())]  # fmt: skip
    known = [day for day in days if day is not None]
    if known and answer.on < min(known):
        return f"mix {subject.mark} was first mixed on {min(known)}, after that: name it under about"
    return ""


def _before_the_work(context: Context, answer: Attestation, subject: Subject) -> str:
    if subject.about not in ("wall", "opening", "pier"):
        return ""
    placed = _placed(context, subject)
    if placed and answer.on < placed[0][0]:
        return f"{placed[0][1]} was placed from {placed[0][0]}, after that"
    return ""


def _changed_since(context: Context, answer: Attestation, subject: Subject) -> str:
    """What the answer is about was not described, or described otherwise, in a revision issued since."""
    for one in context.changed.get((subject.about, subject.mark), ()):
        if answer.on <= one.on:
            revision = f"revision {one.revision}, issued on {one.on}"
            if not one.says:
                return f"{subject.mark} is not in {revision}, and came after that"
            return f"{subject.mark} has changed since {revision}: {one.says}"
    return ""


def _placed(context: Context, subject: Subject) -> list[tuple[date, str]]:
    """The days from which the walls of a subject were placed, the earliest first."""
    return sorted(
        (wall.placed_from, mark)
        for mark, wall in context.project.walls.items()
        if wall.placed_from is not None and _concerns(mark, wall, subject)
    )


def _concerns(mark: str, wall: Wall, subject: Subject) -> bool:
    if subject.about in ("wall", "opening", "pier"):
        return mark in (subject.wall, subject.mark)
    if subject.about in ("stem", "footing", "beam", "mix"):
        return bool(getattr(wall, subject.about) == subject.mark)
    return subject.about in ("project", "site")
