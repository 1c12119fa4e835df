"""All doubts about the sets of a project, by the mark of the set."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from compliance.facts.doubts.days import doubtful_days
from compliance.facts.doubts.doubt import Doubt
from compliance.facts.doubts.plausible import implausible_values
from compliance.facts.doubts.row_doubts import (
    Rows,
    batches_unlike,
    densities_unlike,
    gaps_in_marks,
    rows_alike,
    sets_of_unused_mixes,
)
from compliance.facts.doubts.shapes import doubtful_shapes
from compliance.facts.doubts.strengths import doubtful_strengths
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.model.project import Project


def doubts_of_sets(project: Project, specimens: Rows, practice: MaterialPractice) -> dict[str, tuple[Doubt, ...]]:
    """Sets without a doubt are left out."""
    found: dict[str, list[Doubt]] = defaultdict(list)
    for one in _all(project, specimens, practice):
        found[one.set].append(one)
    return {mark: tuple(doubts) for mark, doubts in found.items()}


def _all(project: Project, specimens: Rows, practice: MaterialPractice) -> Iterator[Doubt]:
    ranges = practice.plausible
    known = {mark: rows for mark, rows in specimens.items() if mark in project.test_sets}
    for mark, rows in known.items():
        mix = project.mixes[project.test_sets[mark].mix]
        for one in rows:
            yield from implausible_values(one, mix, ranges)
            yield from doubtful_shapes(one, ranges)
            yield from doubtful_days(one, project.project.date, ranges)
        yield from doubtful_strengths(rows, practice.lab.strength_difference, practice.settling.gravity)
    yield from rows_alike(known)
    yield from gaps_in_marks(known, project)
    yield from batches_unlike(known, project, ranges.batch_tolerance)
    yield from densities_unlike(known, project, ranges.batch_tolerance)
    yield from sets_of_unused_mixes(known, project)
