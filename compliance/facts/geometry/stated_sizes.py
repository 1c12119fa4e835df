"""Stories and height of the building, as stated and as its walls and roofs give them: the greater is used."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, stated
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.statements import SAME, SEVERER, parts_of_height
from compliance.facts.geometry.subjects import Subject
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step

height_of_building = equation(
    "Height of the building by its walls and roof", "stem + walls + beam + rise", Symbol("H", "length"), "as described",
    stem=Symbol("a", "length", "stem wall above grade"), walls=Symbol("h", "length", "walls, story upon story"),
    beam=Symbol("d", "length", "bond beam"), rise=Symbol("f", "length", "rise of the roof"),
)  # fmt: skip

EQUATIONS = (height_of_building,)


def stories(building: Building, project: Subject) -> Fact:
    """As many as the project or any of its walls speaks of."""
    shown, found = building.project.project.stories, building.stories
    if shown is None or found <= shown:
        return stated(None if shown is None else float(shown), "project", "stories")
    given = (Given("stated", float(shown), "count"),)
    step = Step(
        "Stories by the walls, more than stated",
        formula="",
        given=given,
        result=Given("", float(found), "count"),
        source=SEVERER,
    )
    return Fact(float(found), worked=lambda: (step,))


def building_height(building: Building, project: Subject) -> Fact:
    """The stated height, unless walls and half of the roof's rise alone are higher: then walls with all of the rise."""
    shown = building.project.project.building_height
    if shown is None:
        return stated(None, "project", "building_height")
    stem, walls, beam, rise = parts_of_height(building.project)
    found = height_of_building(stem, walls, beam, rise)
    if float(found) - rise / 2 <= shown.si * (1 + SAME):
        return Fact(shown.si)
    return Fact(float(found), worked=lambda: (found.step(),))
