"""Footings under the walls: width for the soil, pressure on it, and the plain projection."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.footings import (
    greatest_soil_pressure,
    net_bearing,
    plain_concrete_tension,
    projection,
    projection_stresses,
    required_width,
)
from compliance.facts.strength.wall_stress import BASE, pressures
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import STANDARD_GRAVITY, Symbol
from compliance.steps import Given, Step, no_steps

_PLAIN = ("concrete", "rubble-trench-grade-beam")


def width_needed(building: Building, wall: Subject) -> Fact:
    """Width of footing that keeps the soil within its allowable pressure, the load standing in the middle [m]."""
    need = Needs(wall)
    load, soil = need.number("wall.soil_load"), need.number("site.soil_bearing")
    density, deep = need.number("wall.footing_density"), need.number("footing.thickness")
    if need.lacks:
        return need.lacking
    if not math.isfinite(load):  # Its own lines say so.
        return need.known(math.inf, no_steps)
    if density * STANDARD_GRAVITY * deep >= soil:
        step = Step(
            "The footing's own weight uses up the soil",
            formula="",
            given=(),
            result=Given("q_a", soil, "pressure"),
            source="statics",
        )
        return need.known(math.inf, lambda: (step,))
    left = net_bearing(soil, deep, density)
    return need.worked(left, required_width(load, left))


def footing_projection(building: Building, wall: Subject) -> Fact:
    """How far the footing stands out past each side of what stands on it [m]; below zero where it is narrower."""
    need = Needs(wall)
    wide, above = need.number("footing.width"), _above(building, need)
    return need.solved(projection, wide, above)


def _above(building: Building, need: Needs) -> float:
    return need.number("stem.thickness" if building.project.walls[need.subject.mark].stem else "wall.base_thickness")


def soil_pressure(building: Building, wall: Subject) -> Fact:
    """The greatest pressure on the soil, the footing in the middle under the wall and no tension [Pa]."""
    need = Needs(wall)
    load, own, wide = (need.number(name) for name in ("wall.soil_load", "wall.footing_weight", "footing.width"))
    base = [one for one in pressures(building, need, wall) if one.level == BASE and one.found.load > 0]
    if need.lacks or not base:
        return need.lacking
    total = load + own
    worst = max(base, key=lambda one: abs(one.found.eccentricity) * one.found.load / max(one.column.width, 1e-9))
    moment = (
        abs(worst.found.eccentricity) * worst.found.load / worst.column.width if worst.column.width > 0 else math.inf
    )
    if not math.isfinite(total) or not math.isfinite(moment):
        return need.known(math.inf, worst.steps)
    off = offset_on_soil(moment, load, own)
    return need.worked(off, greatest_soil_pressure(total, off, wide))


offset_on_soil = equation(
    "Load off the middle of the footing", "moment / (load + own)", Symbol("e", "thickness"), "statics",
    moment=Symbol("m", "line_moment", "moment at the base of the wall"),
    load=Symbol("n", "line_load", "load along the footing"), own=Symbol("w_F", "line_load", "footing"),
)  # fmt: skip


def footing_tension(building: Building, wall: Subject) -> Fact:
    """Tension from bending in the projection of a plain concrete footing [Pa]."""
    need = Needs(wall)
    mark = need.field(building.project.walls[wall.mark].footing, "walls", wall.mark, "footing")
    if mark is not None and building.project.footings[mark].kind not in _PLAIN:
        return without_meaning("the footing is not of concrete")
    pressure, own = need.number("wall.soil_pressure"), need.number("wall.footing_density")
    out, thick, above = need.number("wall.footing_projection"), need.number("footing.thickness"), _above(building, need)
    lost, share = need.use(building.screening["depth_lost"]), need.use(building.screening["inset_share"])
    if need.lacks:
        return need.lacking
    stem = building.project.walls[wall.mark].stem
    inset = 0.0 if stem and building.project.stems[stem].material == "concrete" else share * above
    net, deep = pressure - own * STANDARD_GRAVITY * thick, thick - lost
    if not math.isfinite(net):  # The lines of the pressure say so.
        return need.known(math.inf, no_steps)
    if deep <= 0:
        step = Step(
            "Nothing of the depth counts",
            formula="",
            given=(),
            result=Given("d", deep, "thickness"),
            source="cast on soil",
        )
        return need.known(math.inf, lambda: (step,))
    found = projection_stresses(max(net, 0.0), out, inset, deep)
    return need.known(float(found.tension), lambda: (found.tension.step(), found.shear.step()))


def footing_tension_allowed(building: Building, wall: Subject) -> Fact:
    """Allowable tension of plain concrete in bending [Pa]."""
    need = Needs(wall)
    strength = need.number("footing.concrete_strength")
    factor, unit = building.screening["plain_factor"], building.screening["plain_unit"]
    for taken in (factor, unit):
        need.use(taken)
    allowed = plain_concrete_tension.sourced(factor.source)
    return need.solved(allowed, strength, factor.given("k"), unit.given("u", "the unit the factor goes with"))


EQUATIONS = (offset_on_soil,)
