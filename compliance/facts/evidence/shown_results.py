"""When the results of a set were shown to the official, and what that day contradicts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from compliance.facts.common.fact import Fact, known, lacking
from compliance.model.materials import TestSet
from compliance.model.project import Project
from compliance.model.specimens import Specimen

Specimens = Mapping[str, Sequence[Specimen]]


def shown_fact(mark: str, test: TestSet, project: Project, specimens: Specimens) -> Fact:
    """Yes where the results were shown; lacking without a day, and where the day contradicts another."""
    path = ("test_sets", mark, "shown_to_official")
    if test.shown_to_official is None:
        return lacking(path)
    against = shown_against(mark, test, project, specimens) or _shown_late(mark, test, project)
    return Fact(None, missing=(path,), reason=against) if against else known(True)


def shown_against(mark: str, test: TestSet, project: Project, specimens: Specimens) -> str:
    """What the day of showing cannot be: after the project's own day, or before the last test. Empty where it can."""
    shown = test.shown_to_official
    if shown is None:
        return ""
    if shown > project.project.date:
        return f"{mark} is said to be shown on {shown}, after the project's own day {project.project.date}"
    last = max((one.tested for one in specimens.get(mark, ()) if one.tested is not None), default=None)
    if last is not None and shown < last:
        return f"{mark} is said to be shown on {shown}, before its last test on {last}"
    return ""


def _shown_late(mark: str, test: TestSet, project: Project) -> str:
    """After placing began, where no set of that kind and mix was shown before; a later set is a test repeated."""
    placed: dict[str, date] = {
        name: wall.placed_from
        for name, wall in project.walls.items()
        if wall.mix == test.mix and wall.placed_from is not None
    }
    first = min(
        other.shown_to_official
        for other in project.test_sets.values()
        if (other.mix, other.kind) == (test.mix, test.kind) and other.shown_to_official is not None
    )
    if not placed or first <= min(placed.values()):
        return ""
    wall = min(placed, key=lambda name: placed[name])
    return f"{mark} was shown on {test.shown_to_official}, but {wall} was placed from {placed[wall]}"
