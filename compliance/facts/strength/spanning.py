"""How a wall spans against forces square to it, and what each of its columns gathers and has pressing it.

A wall whose top is held spans upright between its foot and the bond beam or roof. One with a free top stands by itself
where a stretch has a free end, and spans sideways where crossing walls or buttresses hold both of its ends.
"""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, known, lacking, si, stated
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, Columns
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.loads.lateral_pressure import Action
from compliance.facts.loads.point_loads import SpreadRule, spread_of
from compliance.model.walls import Wall
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Named, Step

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
        return known(UPRIGHT, lambda: (top_restraint_step(described),))
    modes = {one.mode for one in stretches(building.views[wall.mark])}
    return known(ALONE if ALONE in modes else SIDEWAYS, lambda: (top_restraint_step(described),))


def assumed_top(need: Needs, building: Building, mark: str) -> str:
    """What is said to hold the top of a wall, with the line that says so; the field where it lacks."""
    described = building.project.walls[mark]
    restraint = need.field(described.top_restraint, "walls", mark, "top_restraint")
    if restraint is not None:
        need.of(known(restraint, lambda: (top_restraint_step(described),)))
    return restraint


def top_restraint_step(wall: Wall) -> Step:
    """What is taken to hold the top of a wall sideways, said on every sheet that takes it."""
    says = {
        "bond-beam": "the bond beam, between supports that reach it",
        "roof": "the roof, fastened and stiff in its plane",
        "free": "nothing, the top is free",
    }[wall.top_restraint or "free"]
    return Step(
        "Lateral support of the top of the wall, assumed as described",
        formula="",
        given=(),
        result=Given("", says, "word"),
        source="as the project states it; who builds or inspects it attests it",
    )


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


pressure_gathered = equation(
    "Pressure, openings beside it included", "pressure * gathered / width", Symbol("w_c", "pressure"),
    "statics; openings beside it hand their load over",
    pressure=Symbol("w", "pressure"), gathered=Symbol("l", "length", "length of wall that pushes it"),
    width=Symbol("b", "length", "solid length"),
)  # fmt: skip

top_sure_to_be_there = equation(
    "Load on top sure to be there, below zero where wind lifts more", "(share * bears - lift) / width + point",
    Symbol("N_t", "line_load"), "combinations for allowable stresses, ASCE 7",
    share=Symbol("k"), bears=Symbol("D", "force", "dead load on top, single loads left out"),
    lift=Symbol("U", "force", "wind lift"), width=Symbol("b", "length", "solid length"),
    point=Symbol("n_P", "line_load", "single load over the length it spreads over"),
)  # fmt: skip

earth_sure_to_be_there = equation(
    "Weight sure to be there", "share * earth / width", Symbol("W", "line_load"),
    "combinations for allowable stresses, ASCE 7",
    share=Symbol("k"), earth=Symbol("W", "force", "earth above this level"),
    width=Symbol("b", "length", "solid length"),
)  # fmt: skip

spread_of_point = equation(
    "Single load over the length it spreads over", "(share * dead - lift) / length", Symbol("n_P", "line_load"),
    "statics", share=Symbol("k"), dead=Symbol("P_D", "force", "dead part"),
    lift=Symbol("U_P", "force", "wind lift"), length=Symbol("L_s", "length"),
)  # fmt: skip

EQUATIONS = (pressure_gathered, top_sure_to_be_there, earth_sure_to_be_there, spread_of_point)


@record
class Zone:
    """A part of a column that is judged by itself: the strip that a single load spreads over, or what no single load
    reaches. `top` is what is sure to bear on it, below zero where wind lifts it [N/m], `off` how far off the middle
    [m], `full` all that presses its base [N/m]."""

    top: Solved
    off: float
    full: float
    lines: tuple[Solved, ...]


def zones(found: Columns, column: Column, action: Action, offset: float, rule: SpreadRule) -> tuple[Zone, ...]:
    """The zones of a column with a width. A single load steadies only the length that it spreads over at mid-height."""
    share = Given("k", float(action.dead_share), "ratio", f"share of dead load with {action.name}")
    bears = column.sure.on_top + column.sure.opening_top
    lift = action.lift * column.gathered
    standing = [one for one in found.loads if column.left <= one.at <= column.left + column.width]
    even = column.at_base - sum(one.full for one in standing)
    plain = top_sure_to_be_there(share, bears, lift, column.width, 0.0)
    strips, reached = [], 0.0
    for one in standing:
        spread = spread_of(one, column=column, found=found, rule=rule, below=found.profile.height / 2)
        reached += spread.length
        point = spread_of_point(share, one.dead, one.lift if action.lift else 0.0, spread.length)
        top = top_sure_to_be_there(share, bears, lift, column.width, point)
        full = even / column.width + one.full / spread.length
        strips.append(Zone(top, max(offset, one.off or 0.0), full, (*spread.lines, point, top)))
    if reached >= column.width * (1 - 1e-9) and strips:
        return tuple(strips)
    return (Zone(plain, offset, even / column.width, (plain,)), *strips)


def earth_above(found: Columns, column: Column, action: Action, up: float) -> Solved:
    """The column's earth above a height `up` [m], with what openings beside it hand over, sure to be there [N/m]."""
    share = Given("k", float(action.dead_share), "ratio", f"share of dead load with {action.name}")
    return earth_sure_to_be_there(share, column.sure.opening_weight + found.earth_above(column, up), column.width)


def gathered(column: Column, action: Action) -> Solved:
    """The action's pressure on a column, with what openings beside it hand over to it [Pa]."""
    says = Named(f"{action.name.capitalize()} on {{}}, openings beside it included", column.name or "the wall")
    pressure = Given("w", action.pressure, "pressure", action.name)
    return pressure_gathered.titled(says)(pressure, column.gathered, column.width)


def anchor_depth(building: Building, need: Needs) -> float:
    """How far below the top of the earth the rods reach that hold the roof down [m]; the field where it lacks. Rods are
    taken to cross every crack above their ends."""
    wall = building.project.walls[need.subject.mark]
    beam = need.field(wall.beam, "walls", need.subject.mark, "beam")
    if beam is None:
        return math.nan
    anchors = building.project.beams[beam].anchors
    return need.field(si(anchors.embedment) if anchors else None, "beams", beam, "anchors", "embedment")
