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
from compliance.facts.mechanics.lateral.rocking import (
    held_top_capacity,
    overturning_moment,
    pivot_inset,
    restoring_moment,
    stability_factor,
    width_between_edges,
)
from compliance.facts.strength.out_of_plane_sections import bent_sections
from compliance.facts.strength.spanning import UPRIGHT, gathered, gathering, middle_moved, sure_load
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
    strength = need.number("mix.lowest_compression")
    if need.lacks or found is None:
        return need.lacking
    moved = None if mode == UPRIGHT else middle_moved(need, building, found)
    if need.lacks:
        return need.lacking

    def tip(column: Column, one: Action) -> Tipped:
        if column.width <= 0 or strength <= 0:
            return 0.0, lambda: ()
        if moved is None:
            return _held(found, column, one, offset, strength)
        return _free(found, column, one, offset, moved, push, strength)

    worst = min((tip(column, one) for one in both for column in found.all), key=lambda one: one[0])
    return need.known(worst[0], worst[1])


Tipped = tuple[float, Callable[[], tuple[Step, ...]]]


def _sure(found: Columns, column: Column, action: Action) -> tuple[float, float, float]:
    """Weight and load on top sure to be there, and all the load at the base, along the column [N/m]."""
    whole = sure_load(found, column, action, 0.0)
    weight = action.dead_share * (column.sure.opening_weight + found.earth_above(column, 0.0)) / column.width
    return weight, max(whole - weight, 0.0), column.at_base / column.width


def _held(found: Columns, column: Column, action: Action, offset: float, strength: float) -> Tipped:
    """Held at foot and top: it folds in its height. The least thickness counts."""
    weight, top, pressing = _sure(found, column, action)
    inset, thick, height = pivot_inset(pressing, strength), found.profile.top, found.profile.height
    push = gathered(column, action)
    wide, capacity = width_between_edges(thick, inset), held_top_capacity(weight, top, offset, height, thick, inset)
    factor = factor_against_folding(capacity, Given("w_c", float(push), "pressure", action.name))

    def steps() -> tuple[Step, ...]:
        lines = (sure_load(found, column, action, 0.0), inset, wide, capacity, factor)
        return (push.step(), action.step, *(one.step() for one in lines))

    return factor, steps


factor_against_folding = equation(
    "Factor against folding", "capacity / pressure", Symbol("n"), "rigid blocks, statics",
    capacity=Symbol("w_r", "pressure", "load at which it starts to fold"), pressure=Symbol("w_c", "pressure"),
)  # fmt: skip


def _free(
    found: Columns, column: Column, action: Action, offset: float, moved: float, push: float, strength: float
) -> Tipped:
    """A free top: it tips over the edge of its base. A wall that leans on one face has its weight nearer the other, by
    which the thickness is made less here, and the middle of its top stands `moved` off that of its base."""
    weight, top, pressing = _sure(found, column, action)
    inset, pressure = pivot_inset(pressing, strength), gathered(column, action)
    aside = found.profile.offset_above(0.0, moved > 0)
    thick, off = found.profile.base - 2 * aside, offset + moved - aside
    turns = overturning_moment(pressure, found.profile.height, push * gathering(column))
    stands = restoring_moment(weight, top, off, thick, inset)
    factor = stability_factor(stands, turns)

    def steps() -> tuple[Step, ...]:
        lines = (sure_load(found, column, action, 0.0), inset, turns, stands, factor)
        return (pressure.step(), action.step, *(one.step() for one in lines))

    return factor, steps


EQUATIONS = (use_of_tension, factor_against_folding)
