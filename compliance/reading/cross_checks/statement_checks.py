"""Statements that contradict each other. The severer is carried on, and both are named, whatever rules are adopted."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.facts.geometry.statements import SAME, height_of_parts, is_borne_on, stories_of
from compliance.model.project import Project
from compliance.problems import Problem
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.units import Writer


def statements_that_differ(project: Project, tree: PlacedDict, writer: Writer) -> Iterator[Problem]:
    """A warning for stories, building height and bearing walls that other statements are at odds with."""
    stated, stories = project.project.stories, stories_of(project)
    if stated is not None and stories > stated:
        upper = next(mark for mark, wall in project.walls.items() if (wall.story or 1) == stories)
        wrong = f"stories: is {stated}, but {upper} stands in story {stories}; {stories} stories are judged"
        place = place_of(tree, ("project", "stories"))
        yield Problem(place, "contradiction", wrong, "correct one of them", warning=True)
    height, parts = project.project.building_height, height_of_parts(project)
    if height is not None and parts > height.si * (1 + SAME):
        made = writer.write(parts, "length")
        wrong = (
            f"building_height: is {height}, but stem wall, walls, bond beam and half of the roof's rise make {made}; "
            "the height that these make is judged"
        )
        place = place_of(tree, ("project", "building_height"))
        yield Problem(place, "contradiction", wrong, "correct the heights", warning=True)
    for mark, wall in project.walls.items():
        if wall.bears_load is False and is_borne_on(project, mark):
            wrong = f"{mark} is said to bear no load, but a roof bears on it; it is judged as bearing"
            place = place_of(tree, ("walls", mark), at_key=True)
            yield Problem(place, "contradiction", wrong, "write bears_load: yes, or correct bears_on:", warning=True)
