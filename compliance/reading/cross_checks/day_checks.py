"""Days that lie after the project's own day, though what they are of has happened, and days of what was issued."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from compliance.model.issued import ISSUED_FOLDER, IssuedHead
from compliance.model.project import Project
from compliance.problems import Place, Problem
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.rules.amending import AmendmentRecord

Path = tuple[str | int, ...]


def days_after_project(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """A warning for each. Days of specimens, answers, inspections and of showing results are looked at with their
    findings, and placing may be to come."""
    today = project.project.date
    for path, what, day in _days(project):
        if day is not None and day > today:
            wrong = f"{what} on {day}, after the project's own day {today}"
            yield Problem(
                place_of(tree, path), "day-after-project", wrong, "correct it, or the date of the project", warning=True
            )


def _days(project: Project) -> Iterator[tuple[Path, str, date | None]]:
    for mark, soil in project.soils.items():
        yield ("soils", mark, "dug"), f"soil {mark} was dug", soil.dug
    for mark, trial in project.trials.items():
        yield ("trials", mark, "made"), f"trial {mark} was made", trial.made
        yield ("trials", mark, "dropped"), f"trial {mark} was dropped", trial.dropped
    for mark, batch in project.batches.items():
        yield ("batches", mark, "mixed"), f"batch {mark} was mixed", batch.mixed
    for mark, attached in project.attachments.items():
        yield ("attachments", mark, "date"), f"{attached.title} is dated", attached.date
    for index, comment in enumerate(project.comments):
        yield ("comments", index, "on"), "the official commented", comment.on


def amended_after_project(project: Project, amendments: Sequence[AmendmentRecord]) -> Iterator[Problem]:
    """A warning for each limit confirmed, changed or dropped on a day after the project's own."""
    today = project.project.date
    for one in amendments:
        if one.amended.on > today.isoformat():
            wrong = f"{one.rule} of {one.rule_set} was amended on {one.amended.on}, after the project's own day {today}"
            yield Problem(one.place, "day-after-project", wrong, "correct it, or the date of the project", warning=True)


def issued_days(project: Project, issued: Sequence[IssuedHead], tree: PlacedDict) -> Iterator[Problem]:
    """A warning for each day of a revision that contradicts another: the project's own beside what was issued, what
    was issued beside what it follows, and comments on what was not issued yet."""
    head = project.project
    days = {one.project.revision: date.fromisoformat(one.project.date) for one in issued}
    here = place_of(tree, ("project", "date"))
    if head.revision in days and head.date != days[head.revision]:
        wrong = f"revision {head.revision} is dated {head.date}, and was issued on {days[head.revision]}"
        yield Problem(here, "issued-day", wrong, "give the project its next revision", warning=True)
    last = max((one for one in days if one != head.revision), key=lambda one: days[one], default=None)
    if head.revision not in days and last is not None and head.date < days[last]:
        wrong = (
            f"revision {head.revision} is dated {head.date}, before revision {last}, which was issued on {days[last]}"
        )
        yield Problem(here, "issued-day", wrong, "correct the date of the project", warning=True)
    for one in issued:
        before = days.get(one.follows or "")
        if before is not None and days[one.project.revision] < before:
            place = Place(f"{ISSUED_FOLDER}/{one.project.revision}.json")
            revision, day = one.project.revision, one.project.date
            wrong = f"revision {revision} was issued on {day}, before revision {one.follows} on {before}"
            yield Problem(place, "issued-day", wrong, "issue it again with its day corrected", warning=True)
    first = min(days, key=lambda one: days[one], default=None)
    for index, comment in enumerate(project.comments):
        if first is not None and comment.on is not None and comment.on < days[first]:
            wrong = (
                f"the official commented on {comment.on}, before the first revision {first} was issued on {days[first]}"
            )
            place = place_of(tree, ("comments", index, "on"))
            yield Problem(place, "issued-day", wrong, "correct the day of the comment", warning=True)
