"""What keeps rain off the top of a wall, and whether its ends are solid."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, FieldPath, known, lacking
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.plan.runs import piece_of
from compliance.facts.geometry.subjects import Subject

_SAME = 1e-8


def top_cover(building: Building, wall: Subject) -> Fact:
    """Of a wall that says nothing of it and that a roof must cover: the roof."""
    return known("roof")


def ends_solid(building: Building, wall: Subject) -> Fact:
    """Whether solid wall stands at both ends. Where an opening reaches an end its place lacks: what lies over it rests
    on one side only."""
    view = building.views[wall.mark]
    length, lack = view.place.line.length, list[FieldPath]()
    for hole in view.opened.holes:
        if hole.start <= _SAME * length or hole.end >= length * (1 - _SAME):
            piece, own = piece_of(view.mark, hole.mark)
            lack.append(("walls", piece, "openings", own, "start"))
    return lacking(*lack) if lack else known(True)
