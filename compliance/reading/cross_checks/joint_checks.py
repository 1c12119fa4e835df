"""Joints that are drawn wrong: walls that nearly meet, buttresses in openings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from compliance.facts.geometry.plan.joints import near_misses
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.geometry.wall_plan import SupportRules
from compliance.model.project import Project
from compliance.problems import Problem
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.units import Writer

_SAME = 1e-9


def walls_that_nearly_meet(
    views: Mapping[str, WallView], rules: SupportRules, tree: PlacedDict, writer: Writer
) -> Iterator[Problem]:
    """A warning for each end of a wall that stops a little short of another wall: taken as not joined, the check goes
    on."""
    for one in near_misses({mark: view.place for mark, view in views.items()}, rules):
        wrong = f"{one.wall} ends {writer.write(one.gap, 'length')} short of {one.other}; they are taken as not joined"
        place, instead = place_of(tree, ("walls", one.wall), at_key=True), "if they are joined, let the lines meet"
        yield Problem(place, "near-miss", wrong, instead, warning=True)


def buttress_problems(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """Buttresses that stand where the wall has an opening, or where another buttress stands."""
    yield from _in_one_place(project, tree)
    for mark, buttress in project.buttresses.items():
        wall = project.walls.get(buttress.wall)
        half = buttress.width.si / 2 * (1 - _SAME)
        for name, hole in wall.openings.items() if wall else ():
            start, end = hole.start.si, hole.start.si + hole.width.si
            if start < buttress.at.si + half and buttress.at.si - half < end:
                wrong = f"{mark} stands in the opening {name} of {buttress.wall}"
                place = place_of(tree, ("buttresses", mark, "at"))
                yield Problem(place, "buttress-in-opening", wrong, "move the buttress, or the opening")


def _in_one_place(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    beside: dict[tuple[str, str], list[tuple[float, str]]] = {}
    for mark, one in project.buttresses.items():
        beside.setdefault((one.wall, one.side), []).append((one.at.si, mark))
    for standing in beside.values():
        for (at, mark), (further, other) in pairwise(sorted(standing)):
            one, two = project.buttresses[mark], project.buttresses[other]
            if further - at < (one.width.si + two.width.si) / 2 * (1 - _SAME):
                wrong, instead = f"{other} stands in the place of {mark} on {one.wall}", "move or remove one of them"
                yield Problem(place_of(tree, ("buttresses", other, "at")), "buttresses-overlap", wrong, instead)
