"""Heights of the parts of a wall over the foot of its earth, in m: what an elevation and a section stand on."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import TypeVar

from compliance.model.lines import line_of
from compliance.model.project import Project
from compliance.model.structure import BondBeam, Footing, Roof, Stem
from compliance.model.walls import Wall
from compliance.record import record, replace
from compliance.units import Measure

T = TypeVar("T")


@record
class Levels:
    """Zero is the top of the stem wall, where the earth begins. None: the project does not say.

    `grade` is the ground outside where it comes nearest, `floor` the finished floor, of which a garden wall has none,
    `ridge` the top of the gable on the wall.
    """

    top: float
    beam_top: float | None
    grade: float | None
    floor: float | None
    footing_top: float | None
    footing_bottom: float | None
    ridge: float | None = None

    @property
    def eaves(self) -> float:
        """Where a gable begins: on the bond beam, else on the wall."""
        return self.top if self.beam_top is None else max(self.top, self.beam_top)

    @property
    def lowest(self) -> float:
        """Of what is known."""
        known = (self.grade, self.floor, self.footing_top, self.footing_bottom)
        return min(0.0, 0.0, *(one for one in known if one is not None))

    @property
    def highest(self) -> float:
        return self.eaves if self.ridge is None else max(self.eaves, self.ridge)


def height_spans(levels: Levels) -> list[tuple[float, float, str]]:
    """The heights to dimension from below upward: from, to, and what lies between. What is not known is left out."""
    marks = (
        (levels.footing_bottom, ""),
        (levels.grade, "footing below the ground"),
        (0.0, "stem wall above the ground"),
        (levels.top, "height of the earth"),
        (levels.beam_top, "depth of the bond beam"),
        (levels.ridge, "height of the gable"),
    )
    known = [(height, says) for height, says in marks if height is not None]
    return [(low, high, says) for (low, _), (high, says) in pairwise(known) if says and high - low > 1e-9]


@record
class Parts:
    """The parts a wall stands on and carries, as the project describes them; None where it names none."""

    wall: Wall
    stem: Stem | None
    footing: Footing | None
    beam: BondBeam | None
    roofs: tuple[tuple[str, Roof], ...]
    levels: Levels


def parts_of(mark: str, project: Project) -> Parts:
    """The wall `mark` with its parts and levels."""
    wall = project.walls[mark]
    stem, footing, beam = (
        _named(project.stems, wall.stem),
        _named(project.footings, wall.footing),
        _named(project.beams, wall.beam),
    )
    roofs = tuple(
        (name, roof) for name, roof in project.roofs.items() if any(one.wall == mark for one in roof.bears_on)
    )
    levels = _levels(wall, stem, footing, beam)
    rise = gable_rise(wall, project)
    return Parts(
        wall,
        stem=stem,
        footing=footing,
        beam=beam,
        roofs=roofs,
        levels=replace(levels, ridge=levels.eaves + rise) if rise else levels,
    )


def gable_rise(wall: Wall, project: Project) -> float | None:
    """Height of the gable on a wall: as described, else that of the steepest roof over it; None without one [m]."""
    if not wall.gable:
        return None
    if wall.gable_height is not None:
        return wall.gable_height.si
    slopes, line = [roof.slope.si for roof in project.roofs.values() if roof.slope], line_of(wall)
    return line.length / 2 * math.tan(max(slopes)) if slopes and line and max(slopes) < math.pi / 2 else None


def _named(records: Mapping[str, T], mark: str | None) -> T | None:
    return records.get(mark) if mark else None


def _levels(wall: Wall, stem: Stem | None, footing: Footing | None, beam: BondBeam | None) -> Levels:
    assert wall.height is not None
    top = wall.height.si
    grade = _down(stem.above_grade) if stem else None
    bottom = grade - footing.bottom.si if footing and footing.bottom and grade is not None else None
    return Levels(
        top,
        beam_top=top + beam.depth.si if beam and beam.depth else None,
        grade=grade,
        floor=_down(stem.above_floor) if stem and wall.use != "garden" else None,
        footing_top=bottom + footing.thickness.si if bottom is not None and footing and footing.thickness else None,
        footing_bottom=bottom,
    )


def _down(measure: Measure | None) -> float | None:
    return None if measure is None else -measure.si
