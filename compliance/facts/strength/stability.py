"""Walls pushed square to their face: tension from bending, tipping as rigid blocks, and what ties their tops."""

from __future__ import annotations

import math
from collections.abc import Callable

from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, Columns, columns
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.lateral_pressure import Action, actions
from compliance.facts.loads.point_loads import spread_rule
from compliance.facts.mechanics.lateral.rocking import (
    held_top_capacity,
    lifted_capacity,
    overturning_moment,
    pivot_inset,
    restoring_moment,
    stability_factor,
    width_between_edges,
)
from compliance.facts.strength.out_of_plane_sections import bent_sections
from compliance.facts.strength.spanning import (
    UPRIGHT,
    Zone,
    anchor_depth,
    earth_above,
    gathered,
    gathering,
    middle_moved,
    zones,
)
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step


def lateral_moment(building: Building, wall: Subject) -> Fact:
    """The bending moment of the section with the greatest tension [N, that is N·m for each metre]."""
    need = Needs(wall)
    found = bent_sections(building, need, wall)
    if not found:
        return need.lacking
    worst = max(found, key=lambda one: one.tension)
    return need.known(worst.moment, worst.steps)


def bending_tension(building: Building, wall: Subject) -> Fact:
    """The greatest tension from bending; below zero where the section stays pressed [Pa]."""
    need = Needs(wall)
    found = bent_sections(building, need, wall)
    if not found:
        return need.lacking
    worst = max(found, key=lambda one: one.tension)
    if not math.isfinite(worst.tension):
        return need.known(math.inf, worst.steps)
    return need.known(float(worst.tension), lambda: (*worst.steps(), worst.tension.step()))


use_of_tension = equation(
    "Use of the allowable tension", "max(tension, 0) / allowed", Symbol(""), "by definition",
    tension=Symbol("f_t", "stress"), allowed=Symbol("F_t", "stress"),
)  # fmt: skip


def bending_use(building: Building, wall: Subject) -> Fact:
    """Tension from bending over what is allowed; zero where the section stays pressed."""
    need = Needs(wall)
    tension, allowed = need.number("wall.bending_tension"), need.number("wall.tension_allowed")
    if not need.lacks and allowed <= 0:
        return need.worked(use_of_tension.without_value(math.inf, tension, allowed))
    return need.solved(use_of_tension, tension, allowed)


def rocking_factor(building: Building, wall: Subject) -> Fact:
    """How many times the push it would take to tip the wall as rigid blocks, the earth taking no tension."""
    need = Needs(wall)
    mode, found, both = need.of(wall.fact("wall.span_mode")), columns(building, need, wall), actions(building, need)
    offset, push = need.number("wall.load_offset"), need.number("wall.top_thrust")
    strength, rule = need.number("mix.lowest_compression"), spread_rule(building, need)
    if need.lacks or found is None:
        return need.lacking
    moved = None if mode == UPRIGHT else middle_moved(need, building, found)
    tried = [(column, one, zone) for one in both for column in found.all if column.width > 0
             for zone in zones(found, column=column, action=one, offset=offset, rule=rule)]  # fmt: skip
    anchored = 0.0
    if mode == UPRIGHT and any(zone.top < 0 for *_, zone in tried):
        anchored = anchor_depth(building, need)
    if need.lacks:
        return need.lacking

    def tip(column: Column, one: Action, zone: Zone) -> Tipped:
        if strength <= 0:
            return 0.0, lambda: ()
        if moved is None:
            return _held(found, column=column, action=one, zone=zone, anchored=anchored, strength=strength)
        return _free(found, column=column, action=one, zone=zone, moved=moved, push=push, strength=strength)

    factors = [tip(*one) for one in tried]
    if any(column.width <= 0 for column in found.all):
        factors.append((0.0, lambda: ()))
    worst = min(factors, key=lambda one: one[0])
    return need.known(worst[0], worst[1])


Tipped = tuple[float, Callable[[], tuple[Step, ...]]]


def _held(
    found: Columns, column: Column, action: Action, zone: Zone, anchored: float, strength: float
) -> Tipped:  # fmt: skip
    """Held at foot and top: it folds in its height. The least thickness counts. Where wind lifts more than bears on the
    top it folds below the ends of the rods, and less holds it there."""
    weight = earth_above(found, column, action, 0.0)
    inset, thick, height = pivot_inset(zone.full, strength), found.profile.top, found.profile.height
    push = gathered(column, action)
    wide = width_between_edges(thick, inset)
    if zone.top < 0:
        capacity = lifted_capacity(weight, lift=-zone.top, top_offset=zone.off, height=height, wide=wide, rods=anchored)
    else:
        capacity = held_top_capacity(
            weight, top_load=zone.top, top_offset=zone.off, height=height, thickness=thick, inset=inset
        )
    factor = factor_against_folding(capacity, Given("w_c", float(push), "pressure", action.name))

    def steps() -> tuple[Step, ...]:
        lines = (*zone.lines, weight, inset, wide, capacity, factor)
        return (push.step(), action.step, *(one.step() for one in lines))

    return factor, steps


factor_against_folding = equation(
    "Factor against folding", "capacity / pressure", Symbol("n"), "rigid blocks, statics",
    capacity=Symbol("w_r", "pressure", "load at which it starts to fold"), pressure=Symbol("w_c", "pressure"),
)  # fmt: skip


def _free(
    found: Columns, column: Column, action: Action, zone: Zone, moved: float, push: float, strength: float
) -> Tipped:
    """A free top: it tips over the edge of its base. A wall that leans on one face has its weight nearer the other, by
    which the thickness is made less here, and the middle of its top stands `moved` off that of its base. What lifts the
    top is taken on the side where it does most."""
    weight = earth_above(found, column, action, 0.0)
    inset, pressure = pivot_inset(zone.full, strength), gathered(column, action)
    aside = found.profile.offset_above(0.0, moved > 0)
    thick, off = found.profile.base - 2 * aside, zone.off + moved - aside
    turns = overturning_moment(pressure, found.profile.height, push * gathering(column))
    stands = restoring_moment(weight, zone.top, -off if zone.top < 0 else off, thick, inset)
    factor = stability_factor(max(stands, 0.0) if stands < 0 else stands, turns)

    def steps() -> tuple[Step, ...]:
        lines = (*zone.lines, weight, inset, turns, stands, factor)
        return (pressure.step(), action.step, *(one.step() for one in lines))

    return factor, steps


EQUATIONS = (use_of_tension, factor_against_folding)
