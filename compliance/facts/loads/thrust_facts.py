"""How a roof pushes its walls outward, what holds the push, and what is left for the walls."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, known, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.roof_balance import rise_used, span_used
from compliance.facts.loads.roof_lines import roof_plan
from compliance.facts.loads.tributary import ridge_width
from compliance.facts.mechanics.thrust import (
    rafter_thrust,
    ridge_beam_load,
    ring_roof_thrust,
    ring_tension,
    thrust_with_tie,
    tie_force,
)
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step

_TIES = ("ceiling-tie", "collar-tie")
_LEAN_TO = 0.5
"""Of the rise: by how much the walls of a lean-to differ at least; the rest may be ledger and plate (judgment)."""
_UNKNOWN = "is not worked out here: its thrust is for an engineer"


def plan_load(building: Building, roof: Subject) -> Fact:
    """All that presses on the roof's plan at once: dead, the greater of live and snow, and drainage water [Pa]."""
    need = Needs(roof)
    dead, live, snow, water = (need.number(f"roof.{name}") for name in ("dead", "live", "snow", "water"))
    return need.solved(load_on_plan, dead, live, snow, water)


load_on_plan = equation(
    "Load on the roof's plan", "dead + max(live, snow) + water", Symbol("w", "pressure"), "sum",
    dead=Symbol("D", "pressure", "dead load"), live=Symbol("L_r", "pressure", "live load"),
    snow=Symbol("S", "pressure", "snow"), water=Symbol("W_r", "pressure", "drainage water"),
)  # fmt: skip

highest_tie = equation(
    "Highest tie that holds the rafters' feet", "share * rise", Symbol("highest", "length"), "",
    share=Symbol("c", "ratio", "highest tie that counts, of the rise"),
    rise=Symbol("f", "length", "rise from plate to ridge"),
)  # fmt: skip

load_of_width = equation(
    "Load on the ridge beam", "load * width", Symbol("n", "line_load"), "statics",
    load=Symbol("w", "pressure", "load on plan"), width=Symbol("b_r", "length", "width it carries"),
)  # fmt: skip

EQUATIONS = (load_on_plan, highest_tie, load_of_width)


def thrust(building: Building, roof: Subject) -> Fact:
    """The outward push on the walls if nothing held it [N/m]."""
    described = building.project.roofs[roof.mark]
    if described.kind == "trussed":
        step = Step(
            "Trusses tie themselves and push no wall",
            formula="",
            given=(),
            result=Given("H", 0.0, "line_load"),
            source="statics",
        )
        return known(0.0, lambda: (step,))
    if described.kind in ("vault", "other"):
        return without_meaning(f"a roof of the kind {described.kind} {_UNKNOWN}")
    need = Needs(roof)
    load = need.number("roof.plan_load")
    rise = rise_used(building, need, roof.mark)
    if described.kind == "reciprocal" or described.radius is not None:
        radius = need.field(si(described.radius), "roofs", roof.mark, "radius")
        inner = need.field(si(described.ring_radius), "roofs", roof.mark, "ring_radius")
        if not need.lacks and inner >= radius:
            need.lack("the ring lies outside the wall", ("roofs", roof.mark, "ring_radius"))
        return need.solved(ring_roof_thrust, load, radius, inner, rise)
    span = span_used(building, need, roof.mark)
    return need.solved(rafter_thrust, load, span, rise)


def thrust_left(building: Building, roof: Subject) -> Fact:
    """What is left of the push for the walls once what is said to hold it has held it [N/m]."""
    described = building.project.roofs[roof.mark]
    need = Needs(roof)
    held = need.field(described.thrust_held_by, "roofs", roof.mark, "thrust_held_by")
    if need.lacks:
        return need.lacking
    if held == "no-thrust" and _must_push(building, roof, need):
        need.lack(
            "rafters of a pitched roof between walls of one height push them apart: say what holds them, or describe "
            "trusses or a ridge beam",
            ("roofs", roof.mark, "thrust_held_by"),
        )
    if need.lacks:
        return need.lacking
    if held in ("no-thrust", "ridge-beam", "ring", "bond-beam"):
        says = "No thrust, as described" if held == "no-thrust" else f"Thrust held by the {held.replace('-', ' ')}"
        step = Step(
            says,
            formula="",
            given=(),
            result=Given("H_w", 0.0, "line_load"),
            source="true only while what holds it is made for it",
        )
        return known(0.0, lambda: (step,))
    push = need.number("roof.thrust")
    if held not in _TIES:
        step = Step("Nothing holds the thrust", "", (), Given("H_w", push, "line_load"))
        return need.known(push, lambda: (step,))
    return _tied(building, roof, need, push)


def _must_push(building: Building, roof: Subject, need: Needs) -> bool:
    """Whether a roof pushes its walls whatever is said of it: pitched rafters, without a beam of the roof, between
    walls of one height. Those of a lean-to stand on a lower and a higher wall."""
    described = building.project.roofs[roof.mark]
    if described.kind not in ("framed", "living") or described.beams:
        return False
    slope, level = need.number("roof.slope"), need.use(building.screening["level_roof"])
    rise = rise_used(building, need, roof.mark)
    if need.lacks or slope <= level:
        return False
    tops = [building.pieces[one.wall].place.height for one in described.bears_on]
    return max(tops, default=0.0) - min(tops, default=0.0) < rise * _LEAN_TO


def _tied(building: Building, roof: Subject, need: Needs, push: float) -> Fact:
    """With ties at the plate or low over it nothing is left; a collar above counts for nothing."""
    rise, height = _tie(building, roof, need)
    load, span, share = (
        need.number("roof.plan_load"),
        span_used(building, need, roof.mark),
        building.screening["tie_highest"],
    )
    highest = need.use(share)
    if need.lacks:
        return need.lacking
    value = thrust_with_tie(load, span=span, rise=rise, tie_height=height, highest_share=highest)
    says = "Tie low enough to hold the rafters' feet" if value == 0 else "Tie too high to hold the rafters' feet"
    reach = highest_tie.titled(says).sourced(share.source)(share.given("c", highest_tie.symbols["share"].meaning), rise)
    left = Step("Thrust left on the walls", "", (), Given("H_w", float(value), "line_load"))
    return need.known(float(value), lambda: (reach.step(), left))


def _tie(building: Building, roof: Subject, need: Needs) -> tuple[float, float]:
    described = building.project.roofs[roof.mark]
    rise = rise_used(building, need, roof.mark)
    height = need.field(si(described.tie_height), "roofs", roof.mark, "tie_height")
    if rise is not None and height is not None and height >= rise:
        need.lack("a tie lies below the ridge", ("roofs", roof.mark, "tie_height"))
    return rise, height


def pull_in_tie(building: Building, roof: Subject) -> Fact:
    """The pull in one tie, a tie to each pair of rafters [N]."""
    described = building.project.roofs[roof.mark]
    if described.thrust_held_by not in _TIES or described.kind == "trussed":
        return without_meaning("no ties are said to hold the roof's thrust")
    need = Needs(roof)
    load, spacing = need.number("roof.plan_load"), need.number("roof.rafter_spacing")
    span = span_used(building, need, roof.mark)
    rise, height = _tie(building, roof, need)
    return need.solved(tie_force, load, span, rise, height, spacing)


def ridge_load(building: Building, roof: Subject) -> Fact:
    """What a ridge beam that holds the rafters' upper ends must carry [N/m]."""
    if building.project.roofs[roof.mark].thrust_held_by != "ridge-beam":
        return without_meaning("no ridge beam is said to hold the rafters")
    need = Needs(roof)
    load = need.number("roof.plan_load")
    if roof_plan(building, roof.mark) is None and not building.project.roofs[roof.mark].beams:
        return need.solved(ridge_beam_load, load, span_used(building, need, roof.mark))
    wide = ridge_width(building, need, roof.mark)
    if need.lacks:
        return need.lacking
    found = load_of_width(load, wide.width)
    return need.known(float(found), lambda: (*wide.steps, found.step()))


def pull_in_ring(building: Building, roof: Subject) -> Fact:
    """The pull in a ring or closed bond beam that holds the thrust of a round roof [N]."""
    described = building.project.roofs[roof.mark]
    if described.radius is None or described.thrust_held_by not in ("ring", "bond-beam"):
        return without_meaning("no ring is said to hold the thrust of a round roof")
    need = Needs(roof)
    push, radius = need.number("roof.thrust"), described.radius.si
    return need.solved(ring_tension, push, radius)


def tie_capacity(building: Building, roof: Subject) -> Fact:
    """What one tie may take, as stated; where there is no tie it is not asked for [N]."""
    return _capacity(building, roof=roof, demand_name="tie_force", field="tie_capacity", kind="force")


def ridge_capacity(building: Building, roof: Subject) -> Fact:
    return _capacity(building, roof=roof, demand_name="ridge_load", field="ridge_capacity", kind="line_load")


def ring_capacity(building: Building, roof: Subject) -> Fact:
    return _capacity(building, roof=roof, demand_name="ring_tension", field="ring_capacity", kind="force")


def _capacity(building: Building, roof: Subject, demand_name: str, field: str, kind: str) -> Fact:
    demand, described = roof.fact(f"roof.{demand_name}"), building.project.roofs[roof.mark]
    if demand.reason and not demand.missing:
        return without_meaning(demand.reason)
    need = Needs(roof)
    stated = need.field(si(getattr(described, field)), "roofs", roof.mark, field)
    source = described.capacity_source or "as the project states it, without a source"
    step = Step(
        field.replace("_", " ").capitalize(), formula="", given=(), result=Given("", stated, kind), source=source
    )
    return need.known(stated, lambda: (step,))


def wall_thrust(building: Building, wall: Subject) -> Fact:
    """Outward push on the top of a wall from all roofs that bear on it [N/m]."""
    need = Needs(wall)
    parts = [need.number_of(building.subject("roof", one.roof).fact("roof.thrust_left"))
             for one in building.roofs_on(wall.mark)]  # fmt: skip
    return need.known(math.fsum(parts), lambda: ())


def wall_thrust_held(building: Building, wall: Subject) -> Fact:
    """Whether nothing of the roofs' push is left for the wall."""
    need = Needs(wall)
    left = need.number("wall.top_thrust")
    step = Step(
        "Thrust on the wall's top",
        formula="",
        given=(),
        result=Given("H", left, "line_load"),
        source="sum of the roofs that bear on it",
    )
    return need.known(left == 0, lambda: (step,))


def beam_thrust(building: Building, wall: Subject) -> Fact:
    """Push of roofs whose thrust a straight bond beam is said to hold between crossing walls [N/m]."""
    need = Needs(wall)
    parts = []
    for one in building.roofs_on(wall.mark):
        described = building.project.roofs[one.roof]
        if described.thrust_held_by == "bond-beam" and described.radius is None:
            parts.append(need.number_of(building.subject("roof", one.roof).fact("roof.thrust")))
    return need.known(math.fsum(parts), lambda: ())
