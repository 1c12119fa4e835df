"""Nothing may be lost on the way down: all that is put on the walls against all that comes out under the footings."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import columns
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.end_loads import end_loads
from compliance.facts.loads.roof_beams import single_loads
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import GRAVITY, Series, Symbol
from compliance.steps import Given, Named


def load_in(building: Building, wall: Subject) -> Fact:
    """All that one wall brings to the ground, from loads and volumes [N]: roofs, single loads, earth by its volume,
    finishes by their area, stem wall and footing."""
    need = Needs(wall)
    top, length, volume, area = (need.number(f"wall.{name}") for name in ("top_load", "length", "volume", "net_area"))
    density, finish = need.number("wall.unit_weight"), need.number("wall.finish_weight")
    stem, footing = need.number("wall.stem_weight"), need.number("wall.footing_weight")
    gable = need.number("wall.gable_weight")
    loads, past = single_loads(building, need, wall.mark), end_loads(building, need, wall.mark)
    if need.lacks:
        return need.lacking
    points = sum(one.full for one in loads.values()) + sum(one.full for one in past) + gable
    earth = weight_of_earth(density, volume)
    named = load_put_on.titled(Named("Put on {}", wall.mark))
    return need.worked(named(top, stem, footing, length, points, earth, finish, area))


weight_of_earth = equation(
    "Weight of the earth", "density * gravity * volume", Symbol("W", "force"), "mass × gravity",
    density=Symbol("ρ", "density"), volume=Symbol("V", "volume", "openings taken off"), gravity=GRAVITY,
)  # fmt: skip

load_put_on = equation(
    "Put on the wall", "(top + stem + footing) * length + points + earth + finish * area", Symbol("in", "force"),
    "sum of what is described",
    top=Symbol("w", "line_load", "on the wall's top"), stem=Symbol("w_s", "line_load", "stem wall"),
    footing=Symbol("w_F", "line_load", "footing"), length=Symbol("L", "length"),
    points=Symbol("P", "force", "single loads and the gable"), earth=Symbol("W", "force", "earth"),
    finish=Symbol("w_f", "pressure", "finishes"), area=Symbol("A", "area", "face without openings"),
)  # fmt: skip

load_coming_out = equation(
    "Comes out under the wall", "sum(columns) + sum(sills) + (stem + footing) * length", Symbol("out", "force"),
    "columns", columns=Series("N", "force"), sills=Series("U", "force", "under sills"),
    stem=Symbol("w_s", "line_load"), footing=Symbol("w_F", "line_load"), length=Symbol("L", "length"),
)  # fmt: skip

lost_load = equation(
    "Lost or gained on the way down", "abs(arrived - brought) / brought", Symbol(""), "by definition",
    brought=Symbol("in", "force", "all that is put on"), arrived=Symbol("out", "force", "all that comes out"),
)  # fmt: skip

EQUATIONS = (weight_of_earth, load_put_on, load_coming_out, lost_load)


def load_out(building: Building, wall: Subject) -> Fact:
    """All that comes out under one wall's footing, by its columns and what stands under its sills [N]."""
    need = Needs(wall)
    found = columns(building, need, wall)
    stem, footing = need.number("wall.stem_weight"), need.number("wall.footing_weight")
    length = need.number("wall.length")
    if need.lacks or found is None:
        return need.lacking
    standing = [Given(f"N{place}", float(one.at_base), "force", one.name) for place, one in enumerate(found.all, 1)]
    named = load_coming_out.titled(Named("Comes out under {}", wall.mark))
    return need.worked(named(standing, found.below_sills, stem, footing, length))


def wall_balance(building: Building, wall: Subject) -> Fact:
    """What is lost or gained on the way down one wall, as a share of what was put on it."""
    need = Needs(wall)
    brought, arrived = need.number("wall.load_in"), need.number("wall.load_out")
    return need.solved(lost_load, brought, arrived)


def balance(building: Building, project: Subject) -> Fact:
    """The same for the whole building."""
    need = Needs(project)
    walls = [building.subject("wall", mark) for mark in building.walls]
    brought = math.fsum(need.number_of(wall.fact("wall.load_in")) for wall in walls)
    arrived = math.fsum(need.number_of(wall.fact("wall.load_out")) for wall in walls)
    return need.solved(lost_load, brought, arrived)
