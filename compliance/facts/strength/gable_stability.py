"""Gables pushed square to their face: the triangle over the eaves and, where nothing ties the eaves, the whole wall."""

from __future__ import annotations

from collections.abc import Callable

from compliance.facts.common.fact import Fact, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.facts.loads.gable_facts import NO_GABLE
from compliance.facts.loads.lateral_pressure import Action, actions
from compliance.facts.loads.roof_beams import single_loads
from compliance.facts.mechanics.lateral.gables import (
    factor_of_strip,
    factor_of_triangle,
    inset_of_strip,
    inset_of_triangle,
    inset_of_whole,
    restoring_whole,
    turning_whole,
    weight_of_whole,
)
from compliance.facts.mechanics.lateral.rocking import stability_factor
from compliance.facts.strength.spanning import assumed_top
from compliance.record import record
from compliance.rules.formulas.equations import Solved
from compliance.steps import Given, Named, Step

_MONOLITHIC = ("cob", "rammed-earth")


@record
class _Gable:
    """Base, rise, height of the wall below, thickness [m], weight of its face and strength [Pa]."""

    base: float
    rise: float
    high: float
    thick: float
    face: float
    strength: float


Worst = tuple[float, Callable[[], tuple[Step, ...]]]


def gable_triangle(building: Building, wall: Subject) -> Fact:
    """Factor of the whole triangle against tipping at the eaves."""
    return _least(building, wall, (_triangle,))


def gable_strip(building: Building, wall: Subject) -> Fact:
    """Factor of the highest upright strip alone against tipping at the eaves."""
    return _least(building, wall, (_strip,))


def gable_factor(building: Building, wall: Subject) -> Fact:
    """The factor that governs: of the triangle where it is of one piece, else of its highest strip; of the whole wall
    with its gable where nothing ties the eaves. A load that stands on the gable is no part of one piece."""
    described = building.project.walls[wall.mark]
    if not described.gable:
        return without_meaning(NO_GABLE)
    need = Needs(wall)
    restraint = need.field(described.top_restraint, "walls", wall.mark, "top_restraint")
    form = building.project.mixes[described.mix].form if described.mix else None
    whole = form in _MONOLITHIC and not single_loads(building, need, wall.mark)
    modes = [_triangle if whole else _strip, *([_whole] if restraint == "free" else [])]
    return need.lacking if need.lacks else _least(building, wall, tuple(modes))


def _least(building: Building, wall: Subject, modes: tuple[Callable[[_Gable, Action], Worst], ...]) -> Fact:
    described = building.project.walls[wall.mark]
    if not described.gable:
        return without_meaning(NO_GABLE)
    need = Needs(wall)
    base, rise, face = need.number("wall.length"), need.number("wall.gable_height"), need.number("wall.face_weight")
    high, strength = need.number("wall.height"), need.number("mix.lowest_compression")
    if described.top_restraint is not None:
        assumed_top(need, building, wall.mark)
    both = actions(building, need)
    if need.lacks:
        return need.lacking
    gable = _Gable(base, rise=rise, high=high, thick=min(ends_of_section(described)), face=face, strength=strength)
    found = [mode(gable, one) for mode in modes for one in both if one.pressure > 0]
    if not found:
        return without_meaning("nothing pushes the gable")
    worst = min(found, key=lambda one: one[0])
    return need.known(worst[0], worst[1])


def _given(action: Action) -> tuple[Given, Given]:
    share = Given("k", float(action.dead_share), "ratio", Named("share of dead load with {}", action.name))
    return share, Given("w", action.pressure, "pressure", action.name)


def _triangle(gable: _Gable, action: Action) -> Worst:
    share, push = _given(action)
    inset = inset_of_triangle(gable.face, gable.rise, gable.strength)
    factor = factor_of_triangle(share, gable.face, gable.thick, inset, push, gable.rise)
    return float(factor), _lines(action, (inset, factor))


def _strip(gable: _Gable, action: Action) -> Worst:
    share, push = _given(action)
    inset = inset_of_strip(gable.face, gable.rise, gable.strength)
    factor = factor_of_strip(share, gable.face, gable.thick, inset, push, gable.rise)
    return float(factor), _lines(action, (inset, factor))


def _whole(gable: _Gable, action: Action) -> Worst:
    share, push = _given(action)
    weight = weight_of_whole(gable.face, gable.base, gable.high, gable.rise)
    inset = inset_of_whole(weight, gable.strength, gable.base)
    turns = turning_whole(push, gable.base, gable.high, gable.rise)
    stands = restoring_whole(share, weight, gable.thick, inset)
    factor = stability_factor(stands, turns, "moment")
    return float(factor), _lines(action, (weight, inset, turns, stands, factor))


def _lines(action: Action, lines: tuple[Solved, ...]) -> Callable[[], tuple[Step, ...]]:
    return lambda: (action.step, *(one.step() for one in lines))
