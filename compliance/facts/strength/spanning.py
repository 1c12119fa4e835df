"""How a wall spans against forces square to it, and what each of its columns gathers and has pressing it.

A wall whose top is held spans upright between its foot and the bond beam or roof. One with a free top stands by itself
where a stretch has a free end, and spans sideways where crossing walls or buttresses hold both of its ends.
"""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, known, lacking, stated
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, Columns
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.loads.lateral_pressure import Action
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Named

UPRIGHT, SIDEWAYS, ALONE = "upright", "sideways", "alone"


@record
class Stretch:
    """A length of wall between lateral supports or ends, and how it spans."""

    start: float
    end: float
    mode: str

    @property
    def length(self) -> float:
        return self.end - self.start


def stretches(view: WallView) -> tuple[Stretch, ...]:
    """The lengths of a wall with a free top, by its own stations; they reach beyond it where it runs on. A closed ring
    stands alone: what its curve holds is not counted."""
    bays = [Stretch(one.start, one.end, SIDEWAYS if all(one.held) else ALONE) for one in view.spans()]
    return tuple(bays) or (Stretch(0.0, view.place.line.length, ALONE),)


def base_restraint(building: Building, wall: Subject) -> Fact:
    """What keeps the foot of the earth from moving sideways, as described."""
    return stated(building.project.walls[wall.mark].base_restraint, "walls", wall.mark, "base_restraint")


def span_mode(building: Building, wall: Subject) -> Fact:
    """How the wall stands against forces square to it: upright, sideways, or alone where any stretch of it does."""
    described = building.project.walls[wall.mark]
    if described.top_restraint is None:
        return lacking(("walls", wall.mark, "top_restraint"))
    if described.top_restraint != "free":
        if described.top_restraint == "bond-beam" and described.beam is None:
            return lacking(("walls", wall.mark, "beam"))
        return known(UPRIGHT)
    modes = {one.mode for one in stretches(building.views[wall.mark])}
    return known(ALONE if ALONE in modes else SIDEWAYS)


def middle_moved(need: Needs, building: Building, found: Columns) -> float:
    """How far the middle of the top stands off the middle of the base [m], of a wall that leans on one face."""
    profile, mark = found.profile, need.subject.mark
    if profile.base == profile.top:
        return 0.0
    face = need.field(building.project.walls[mark].tapered_face, "walls", mark, "tapered_face")
    return 0.0 if face == "both" else (profile.base - profile.top) / 2


def gathering(column: Column) -> float:
    """How many times its own length a column takes of what pushes the wall, openings beside it shared in halves."""
    return column.gathered / column.width if column.width > 0 else math.inf


load_sure_to_be_there = equation(
    "Load sure to be there", "(max(share * bears - lift, 0) + share * earth) / width", Symbol("N", "line_load"),
    "combinations for allowable stresses, ASCE 7",
    share=Symbol("k"), bears=Symbol("D", "force", "dead load on top"), lift=Symbol("U", "force", "wind lift"),
    earth=Symbol("W", "force", "earth above this level"), width=Symbol("b", "length", "solid length"),
)  # fmt: skip

pressure_gathered = equation(
    "Pressure, openings beside it included", "pressure * gathered / width", Symbol("w_c", "pressure"),
    "statics; openings beside it hand their load over",
    pressure=Symbol("w", "pressure"), gathered=Symbol("l", "length", "length of wall that pushes it"),
    width=Symbol("b", "length", "solid length"),
)  # fmt: skip

EQUATIONS = (load_sure_to_be_there, pressure_gathered)


def sure_load(found: Columns, column: Column, action: Action, up: float) -> Solved:
    """Dead load along the column above a height `up` that is sure to be there with the action [N/m], lift taken off
    what bears on the top; nothing for a column without width."""
    if column.width <= 0:
        return load_sure_to_be_there.without_value(0.0)
    bears = column.sure.on_top + column.sure.opening_top + column.sure.points
    earth = column.sure.opening_weight + found.earth_above(column, up)
    share = Given("k", float(action.dead_share), "ratio", Named("share of dead load with {}", action.name))
    return load_sure_to_be_there(share, bears, action.lift * column.gathered, earth, column.width)


def gathered(column: Column, action: Action) -> Solved:
    """The action's pressure on a column, with what openings beside it hand over to it [Pa]."""
    says = Named(f"{action.name.capitalize()} on {{}}, openings beside it included", column.name or "the wall")
    pressure = Given("w", action.pressure, "pressure", action.name)
    return pressure_gathered.titled(says)(pressure, column.gathered, column.width)
