"""Pressures down a wall under the loads from above: at its top, at mid-height and at its base, load off the middle."""

from __future__ import annotations

import math
from collections.abc import Callable

from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, Columns, columns, standing_on
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.point_loads import SpreadRule, spread_pressure, spread_rule
from compliance.facts.mechanics.gravity import LevelStress, level_stress, moment_share_below, resultant_offset
from compliance.facts.mechanics.sections import greatest_edge_pressure
from compliance.facts.strength.spanning import assumed_top
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, size
from compliance.steps import Given, Named, Step

TOP, MIDDLE, BASE = 0.0, 0.5, 1.0
_CALLED = {TOP: "top", MIDDLE: "mid-height", BASE: "base"}


@record
class Pressed:
    """One column at one level. `points` is the greatest pressure of a single load spread down to that level [Pa]."""

    level: float
    column: Column
    found: LevelStress
    depth: float
    points: float
    steps: Callable[[], tuple[Step, ...]]

    @property
    def stress(self) -> float:
        """Greatest pressure [Pa]; infinite where a load has nothing to stand on."""
        return self.found.edges.most + self.points

    @property
    def off(self) -> float:
        """Eccentricity as a share of the depth."""
        return share_of_depth(self.found.eccentricity, self.depth)


def pressures(building: Building, need: Needs, wall: Subject) -> tuple[Pressed, ...]:
    """Every column at every level; empty where a value lacks, which `need` then names."""
    found = columns(building, need, wall)
    offset = need.number("wall.load_offset")
    described = building.views[wall.mark].wall
    restraint = assumed_top(need, building, wall.mark)
    face = described.tapered_face
    if found is not None and found.profile.base != found.profile.top:
        face = need.field(face, "walls", wall.mark, "tapered_face")
    bearing = need.number("beam.width") if described.beam else math.inf
    spread = spread_rule(building, need)
    for load in found.loads if found is not None else ():
        load.plate(need)
    if need.lacks or found is None:
        return ()
    state = _State(
        found,
        held=restraint != "free",
        plumb_face=face in ("outside", "inside"),
        offset=offset,
        bearing=bearing,
        spread=spread,
    )
    return building.cached(("pressures", wall.mark), lambda: _all(building, wall, state))


@record
class _State:
    columns: Columns
    held: bool
    plumb_face: bool
    offset: float
    bearing: float
    spread: SpreadRule


def _all(building: Building, wall: Subject, state: _State) -> tuple[Pressed, ...]:
    return tuple(
        _pressed(building, wall=wall, state=state, column=column, level=level)
        for level in (TOP, MIDDLE, BASE)
        for column in state.columns.all
    )  # fmt: skip


def _pressed(building: Building, wall: Subject, state: _State, column: Column, level: float) -> Pressed:
    """The bearing's moment fades to nothing at the base of a wall held at its top. Where one face is plumb the middle
    of the section moves towards it on the way down: of a free wall the load on top is off it by as much."""
    profile = state.columns.profile
    up = profile.height * (1 - level)
    depth = profile.thickness_at(up)
    moved = 0.0 if state.held or not state.plumb_face else (depth - profile.top) / 2
    if level == TOP:
        depth = min(depth, state.bearing)
    share = moment_share_below(level, state.held)
    spread = standing_on(state.columns.loads, column)
    load = column.full.from_above - spread + (column.finish.from_above if column.finish else 0.0)
    weight = state.columns.own_above(column, up)
    aside = profile.offset_above(up, state.plumb_face)
    off = share * state.offset + moved
    if column.width <= 0:
        found = level_stress(
            load, top_offset=math.inf, moment_share=1.0, weight=0.0, weight_offset=0.0, depth=depth, width=1.0
        )  # no load is off nothing
        return Pressed(level, column=column, found=found, depth=depth, points=0.0, steps=lambda: (_nothing(column),))
    found = level_stress(
        load, top_offset=off, moment_share=1.0, weight=weight, weight_offset=aside, depth=depth, width=column.width
    )
    points = spread_pressure(
        column, state.columns, state.spread, below=profile.height - up, depth=depth, fading=share
    )  # fmt: skip

    def steps() -> tuple[Step, ...]:
        without = ", single loads left out" if points else ""
        says = Named(f"Load on {{}} at its {_CALLED[level]}{without}", column.name or "the whole wall")
        above = Given("P", load, "force", f"load from above, finishes included{without}")
        sums = load_at_level.titled(says)(above, weight)
        moment = (resultant_offset(load, off, 1.0, weight, aside).step(),) if load + weight > 0 else ()
        edge = greatest_edge_pressure(found.load, found.eccentricity, depth, column.width)
        lines = (column.full.at_base.step(), sums.step(), *moment, edge.step())
        return (*lines, *(one.step() for one in points), _together(edge, points[-1]).step()) if points else lines

    return Pressed(level, column=column, found=found, depth=depth, points=points[-1] if points else 0.0, steps=steps)


load_at_level = equation(
    "Load at this level", "above + own", Symbol("N", "force"), "sum",
    above=Symbol("P", "force"), own=Symbol("W", "force", "own weight above this level"),
)  # fmt: skip

both_pressures = equation(
    "Both together under the single load", "edge + point", Symbol("σ", "stress", "pressure under the single load"),
    "sum, as if both pressed on one spot",
    edge=Symbol("σ_1", "stress", "greatest pressure without single loads"),
    point=Symbol("σ_2", "stress", "mean pressure of the single load"),
)  # fmt: skip

share_of_depth = equation(
    "Eccentricity over depth", "off / depth", Symbol(""), "by definition",
    off=size("e", "thickness"), depth=Symbol("d", "thickness"),
)  # fmt: skip

load_along_base = equation(
    "Load along the base", "load / width", Symbol("n", "line_load"), "load over the solid length",
    load=Symbol("N", "force", "load at the base, finishes and all"), width=Symbol("b", "length", "solid length"),
)  # fmt: skip

EQUATIONS = (load_at_level, both_pressures, share_of_depth, load_along_base)


def _together(edge: float, point: float) -> Solved:
    """The greatest pressure of the column and that of the single load, added as if both pressed on the same spot."""
    if math.isinf(edge):
        under = both_pressures.titled("Under the single load too nothing balances it").sourced("statics")
        return under.without_value(edge)
    return both_pressures(edge, point)


def _nothing(column: Column) -> Step:
    says = "An opening reaches the wall's end: half of what stands over it has nothing to stand on there"
    return Step(says, formula="", given=(), result=Given("N", column.full.from_above, "force"), source="statics")


def top_stress(building: Building, wall: Subject) -> Fact:
    """The greatest pressure at the top, on the bond beam's width where there is one [Pa]."""
    return _greatest(building, wall, (TOP,))


def middle_stress(building: Building, wall: Subject) -> Fact:
    return _greatest(building, wall, (MIDDLE,))


def base_stress(building: Building, wall: Subject) -> Fact:
    return _greatest(building, wall, (BASE,))


def greatest_stress(building: Building, wall: Subject) -> Fact:
    """The greatest pressure of the three levels [Pa]."""
    return _greatest(building, wall, (TOP, MIDDLE, BASE))


def _greatest(building: Building, wall: Subject, levels: tuple[float, ...]) -> Fact:
    need = Needs(wall)
    found = [one for one in pressures(building, need, wall) if one.level in levels]
    if not found:
        return need.lacking
    worst = max(found, key=lambda one: one.stress)
    return need.known(worst.stress, worst.steps)


def eccentricity(building: Building, wall: Subject) -> Fact:
    """The greatest distance of the load from the middle of the section, as a share of its depth."""
    need = Needs(wall)
    found = pressures(building, need, wall)
    if not found:
        return need.lacking
    worst = max(found, key=lambda one: one.off)

    share = share_of_depth(worst.found.eccentricity, worst.depth)
    return need.known(float(share), lambda: (*worst.steps(), share.step()))


def base_load(building: Building, wall: Subject) -> Fact:
    """Load along the base of the column that carries most for its width [N/m]."""
    need = Needs(wall)
    found = columns(building, need, wall)
    if need.lacks or found is None:
        return need.lacking
    worst = max(found.all, key=lambda one: one.at_base / one.width if one.width > 0 else math.inf)
    if worst.width <= 0:
        return need.known(math.inf, lambda: (_nothing(worst),))
    named = load_along_base.titled(Named("Load along the base of {}", worst.name or "the wall"))
    return need.worked(worst.full.at_base, named(worst.at_base, worst.width))


def column_of(building: Building, need: Needs, pier: Subject) -> tuple[int, Column] | None:
    """The column of the wall that a pier of the plan is; one without width is none."""
    found = columns(building, need, building.subject("wall", pier.wall))
    mark = pier.mark.partition(".")[2]
    named = [(index, one) for index, one in enumerate(found.all) if one.name == mark] if found else []
    if found and not named:
        need.lack("the pier has no width")
    return named[0] if named else None


def pier_load(building: Building, pier: Subject) -> Fact:
    """All that one pier passes on at its base, finishes and all [N]."""
    need = Needs(pier)
    found = column_of(building, need, pier)
    if found is None:
        return need.lacking
    column = found[1]
    return need.known(column.at_base, lambda: column.full.at_base.steps())
