"""Days that lie after the project's own day, though what they are of has happened."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from compliance.model.project import Project
from compliance.problems import Problem
from compliance.reading.yaml.placed import PlacedDict, place_of

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
