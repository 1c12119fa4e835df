"""The solid lengths of a wall between its openings, each with all it carries from the roof down to the stem wall."""

from __future__ import annotations

from collections.abc import Iterable

from compliance.facts.common.needs import Needs, once
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import WallView, ends_of_section
from compliance.facts.loads.end_loads import end_loads
from compliance.facts.loads.roof_beams import SingleLoad, single_loads
from compliance.facts.mechanics.beams import Point
from compliance.facts.mechanics.lateral.gables import strips_of
from compliance.facts.mechanics.lateral.piers import PierLoad, Shared, pier_weight_above, share_loads
from compliance.facts.mechanics.wall_weight import Elevation, Opening, Profile
from compliance.record import record
from compliance.rules.formulas.symbols import STANDARD_GRAVITY

_SAME = 1e-9


@record
class Column:
    """A solid length. `full` is what it carries under the governing loads, `finish` the finishes' own weight (nothing
    else), `sure` the dead load alone, without finishes. `gaps` are the widths of the openings beside it."""

    name: str
    full: PierLoad
    finish: PierLoad | None
    sure: PierLoad
    gaps: tuple[float, float]

    @property
    def left(self) -> float:
        return self.full.left

    @property
    def width(self) -> float:
        """[m]; zero beside an opening that reaches the wall's end."""
        return self.full.width

    @property
    def gathered(self) -> float:
        """The length of wall whose load it takes: its own and half of the openings beside it [m]."""
        return self.width + sum(self.gaps) / 2

    @property
    def at_base(self) -> float:
        """All that it passes on at its base [N]."""
        return self.full.at_base + (self.finish.at_base if self.finish else 0.0)


@record
class Columns:
    """The columns of one wall from its start to its end, with the two elevations their weights come from.

    `below_sills` is the weight of wall under each opening or group of openings, which goes straight down [N], `loads`
    are the single loads on its top."""

    earth: Elevation
    finish: Elevation | None
    all: tuple[Column, ...]
    below_sills: tuple[float, ...]
    loads: tuple[SingleLoad, ...] = ()

    @property
    def profile(self) -> Profile:
        return self.earth.profile

    @property
    def total(self) -> float:
        """All that goes into the stem wall [N]."""
        return sum(column.at_base for column in self.all) + sum(self.below_sills)

    def own_above(self, column: Column, up: float) -> float:
        """The column's own weight above a height `up` [m], finishes and all [N]."""
        return self.earth_above(column, up) + (
            pier_weight_above(self.finish, column.finish, up) if self.finish and column.finish else 0.0
        )

    def earth_above(self, column: Column, up: float) -> float:
        """The same without finishes [N]."""
        return pier_weight_above(self.earth, column.sure, up)


def columns(building: Building, need: Needs, wall: Subject) -> Columns | None:
    """The columns of a wall; None where a value lacks, which `need` then names."""
    return once(
        building, need, key=("columns", wall.mark), subject=wall, work=lambda own: _gathered(building, own, wall.mark)
    )


def _gathered(building: Building, need: Needs, wall: str) -> Columns | None:
    top, dead = need.number("wall.top_load"), need.number("wall.top_dead")
    gable = need.number("wall.gable_weight")
    density, finish = need.number("wall.unit_weight"), need.number("wall.finish_weight")
    loads, past = single_loads(building, need, wall), end_loads(building, need, wall)
    if need.lacks:
        return None
    view, on_top = building.views[wall], tuple(loads.values())
    ends = [Point(one.at, one.full) for one in past]
    return _columns(view, on_top, ends, top=top, dead=dead, density=density, finish=finish, gable=gable)


def elevation(view: WallView, density: float) -> Elevation:
    """A wall of the project seen from the front."""
    return Elevation(view.place.line.length, profile_of(view), density, _openings(view))


def profile_of(view: WallView) -> Profile:
    base, top = ends_of_section(view.wall)
    return Profile(view.place.height, base, top)


def _openings(view: WallView) -> tuple[Opening, ...]:
    """A last digit lost in adding lengths must not put an opening outside its wall."""
    length, height = view.place.line.length, view.place.height
    return tuple(
        Opening(hole.start, min(hole.width, length - hole.start), hole.sill, min(hole.height, height - hole.sill))
        for hole in view.opened.holes
    )


def _columns(
    view: WallView, loads: tuple[SingleLoad, ...], ends: list[Point], *, top: float, dead: float, density: float,
    finish: float, gable: float,
) -> Columns:  # fmt: skip
    """The weight of a gable presses; of what steadies a wall it is left out, for the ends of the wall have none. So is
    what of the roof lies past the ends, for the middle has none of it."""
    earth = elevation(view, density)
    skin = _finishes(view, finish) if finish > 0 else None
    full = share_loads(earth, top, [
        *(Point(one.at, one.full) for one in loads), *ends, *strips_of(gable, view.place.line.length)
    ])  # fmt: skip
    sure = share_loads(earth, dead, [Point(one.at, one.dead) for one in loads])
    skins = share_loads(skin, 0.0) if skin else None
    below = full.below_sills
    if skins:
        below = tuple(one + other for one, other in zip(below, skins.below_sills, strict=True))
    return Columns(earth, finish=skin, all=tuple(_each(view, full, sure, skins)), below_sills=below, loads=loads)


def _finishes(view: WallView, weight: float) -> Elevation:
    """Both faces' finishes as a wall of one metre with the density that gives them their weight per area."""
    flat = Profile(view.place.height, 1.0, 1.0)
    return Elevation(view.place.line.length, flat, weight / STANDARD_GRAVITY, _openings(view))


def _each(view: WallView, full: Shared, sure: Shared, skins: Shared | None) -> list[Column]:
    piers = full.piers
    found = []
    for index, pier in enumerate(piers):
        before = pier.left - piers[index - 1].right if index else 0.0
        after = piers[index + 1].left - pier.right if index + 1 < len(piers) else 0.0
        skin = skins.piers[index] if skins else None
        found.append(Column(_name(view, pier), full=pier, finish=skin, sure=sure.piers[index], gaps=(before, after)))
    return found


def _name(view: WallView, pier: PierLoad) -> str:
    """The mark of the pier as the plan names it; empty for a wall without openings. The pier in which a closed wall
    begins is two columns."""
    whole = view.place.line.length
    slack = _SAME * whole
    for one in view.opened.piers:
        first, last = max(one.start, 0.0), one.end
        if abs(first - pier.left) <= slack and abs(last - pier.right) <= slack:
            return one.mark
        if one.start < 0 and abs(one.start + whole - pier.left) <= slack:
            return one.mark
    return ""


def standing_on(loads: Iterable[SingleLoad], column: Column) -> float:
    """Single loads that stand on a column itself, not over an opening beside it [N]."""
    right = column.left + column.width
    return sum(one.full for one in loads if column.left <= one.at <= right)
