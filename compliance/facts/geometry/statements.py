"""Of two statements about one thing the severer: stories, building height, and whether a wall bears load."""

from __future__ import annotations

import math

from compliance.facts.common.fact import si
from compliance.model.project import Project

SEVERER = "two statements disagree: the more severe is used until that is cleared"
"""What a line says of the statement it takes."""
SAME = 0.02
"""By how little a stated height may fall short of what the parts make, as a share, without a word about it."""


def stories_of(project: Project) -> int:
    """As many stories as the project or any of its walls speaks of."""
    return max(project.project.stories or 1, *(wall.story or 1 for wall in project.walls.values()), 1)


def height_of_parts(project: Project) -> float:
    """The least height that walls and roofs make, however the code measures it: with half of the roof's rise [m]."""
    stem, walls, beam, rise = parts_of_height(project)
    return stem + walls + beam + rise / 2


def parts_of_height(project: Project) -> tuple[float, float, float, float]:
    """The highest stem wall, the tallest wall of each story, the deepest bond beam and the highest rise of a roof on
    these walls [m]. Garden walls are left out; what is not stated adds nothing."""
    tallest: dict[int, float] = {}
    base = top = rise = 0.0
    for mark, wall in project.walls.items():
        if wall.use == "garden" or wall.height is None:
            continue
        story = wall.story or 1
        tallest[story] = max(tallest.get(story, 0.0), wall.height.si)
        stem, beam = project.stems.get(wall.stem or ""), project.beams.get(wall.beam or "")
        base = max(base, (si(stem.above_grade) or 0.0) if stem else 0.0)
        top = max(top, (si(beam.depth) or 0.0) if beam else 0.0)
        rises = [si(roof.rise) or 0.0 for roof in project.roofs.values() if any(b.wall == mark for b in roof.bears_on)]
        rise = max(rise, *rises, 0.0)
    return base, math.fsum(tallest.values()), top, rise


def is_borne_on(project: Project, wall: str) -> bool:
    """Whether a roof, or a beam of one, is said to bear on a wall."""
    return any(
        any(one.wall == wall for one in roof.bears_on)
        or any(each.wall == wall for beam in roof.beams.values() for each in beam.bears_on)
        for roof in project.roofs.values()
    )
