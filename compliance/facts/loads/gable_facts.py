"""Gables as described: the triangle of earth that stands on a wall over the eaves, its height and its weight."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, FieldPath, known, lacking, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.lateral.gables import rise_of_slope, weight_of_gable
from compliance.steps import Given, Step

NO_GABLE = "no gable is said to stand on the wall"


def has_gable(building: Building, wall: Subject) -> Fact:
    """Whether the wall is said to carry a gable."""
    return known(building.project.walls[wall.mark].gable is True)


def gable_height(building: Building, wall: Subject) -> Fact:
    """Height of the gable over the eaves: as stated, or from the slope of the roof over it, the steepest where several
    are [m]. Without both it lacks."""
    described = building.project.walls[wall.mark]
    if not described.gable:
        return without_meaning(NO_GABLE)
    if described.gable_height is not None:
        value = described.gable_height.si
        step = Step(
            "Height of the gable over the eaves",
            formula="",
            given=(),
            result=Given("H", value, "length"),
            source="as described",
        )
        return known(value, lambda: (step,))
    roofs = _roofs_over(building, wall.mark)
    lack: list[FieldPath] = [("roofs", mark, "slope") for mark in roofs if building.project.roofs[mark].slope is None]
    if lack or not roofs:
        return lacking(("walls", wall.mark, "gable_height"), *lack)
    slope = max(one.si for mark in roofs if (one := building.project.roofs[mark].slope) is not None)
    need = Needs(wall)
    length = need.number("wall.length")
    if slope <= 0:
        return lacking(("walls", wall.mark, "gable_height"))
    return need.solved(rise_of_slope, length, math.tan(slope))


def _roofs_over(building: Building, wall: str) -> list[str]:
    """Roofs that bear on the wall or on a wall that meets it; all where none does."""
    view = building.views[wall]
    near = {wall}.union(*(one.at_joint for one in view.placed.stretch.supports))
    near |= {mark for one in near if one in building.views for mark in building.views[one].pieces}
    found = [mark for mark, roof in building.project.roofs.items() if any(one.wall in near for one in roof.bears_on)]
    return found or list(building.project.roofs)


def gable_weight(building: Building, wall: Subject) -> Fact:
    """Weight of the gable, finishes and all; zero for a wall without one [N]."""
    if not building.project.walls[wall.mark].gable:
        return known(0.0)
    need = Needs(wall)
    face, length, rise = need.number("wall.face_weight"), need.number("wall.length"), need.number("wall.gable_height")
    return need.solved(weight_of_gable, face, length, rise)
