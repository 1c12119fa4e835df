"""What of a roof walls and beams are said to carry, and the measures of a roof held against each other."""

from __future__ import annotations

import math
from itertools import pairwise

from compliance.facts.common.fact import Fact, known, lacking, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.roof_beams import WORKED, beam_width, supports
from compliance.facts.loads.roof_lines import RoofPlan, roof_plan
from compliance.facts.loads.tributary import hung, width_of_plan
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given, Step

_TELLS_NOT = "the plan does not tell how far the roof goes: it bears on curved walls, or on walls that run several ways"


def carried_share(building: Building, roof: Subject) -> Fact:
    """How much of the roof's plan walls and beams are said to carry: widths times lengths over the whole area. Along a
    wall at which the roof ends its length counts as far as the roof goes."""
    described, need = building.project.roofs[roof.mark], Needs(roof)
    area = need.field(si(described.plan_area), "roofs", roof.mark, "plan_area")
    plan = roof_plan(building, roof.mark)
    if plan is not None and plan.length is None:
        need.field(None, "roofs", roof.mark, "rake")
    strips, widths = [], list[Step]()
    for index, bearing in enumerate(described.bears_on):
        of_roof = hung(building, need, roof.mark, index)
        length = building.pieces[bearing.wall].place.line.length if plan is None else plan.bearings[index].reach
        strips.append((bearing.wall, of_roof.width, length))
        widths += of_roof.steps
    for mark, beam in described.beams.items():
        if beam.kind not in WORKED:
            need.lack(f"what {mark} carries is for an engineer")
            continue
        of_beam = beam_width(building, need, roof.mark, mark)
        strips += [(mark, of_beam.width, one.length) for one in supports(building, need, roof.mark, mark)]
        widths += of_beam.steps
    if need.lacks:
        return need.lacking
    hanging = [
        area_hung.titled(f"Roof hung on {wall}").giving(f"A{place}")(width, length)
        for place, (wall, width, length) in enumerate(strips, 1)
    ]
    carried = share_carried([Given(f"A{place}", float(one), "area") for place, one in enumerate(hanging, 1)], area)

    def worked() -> tuple[Step, ...]:
        return (*widths, *(one.step() for one in hanging), carried.step())

    return need.known(float(carried), worked)


area_hung = equation(
    "Roof hung on the wall", "width * length", Symbol("A", "area"), "from the plan",
    width=Symbol("b", "length"), length=Symbol("L", "length"),
)  # fmt: skip

share_carried = equation(
    "Share of the roof that the walls carry", "sum(part) / whole", Symbol("", "share"), "by definition",
    part=Series("A", "area"), whole=Symbol("A", "area", "whole roof on plan"),
)  # fmt: skip

area_of_plan = equation(
    "Roof on plan", "width * length", Symbol("A_p", "area"), "from the plan",
    width=Symbol("B_r", "length", "across, eaves included"), length=Symbol("L_r", "length", "along, rakes included"),
)  # fmt: skip

part_of = equation(
    "Stated over derived", "stated / derived", Symbol("", "share"), "by definition",
    stated=Symbol("stated", "area"), derived=Symbol("derived", "area"),
)  # fmt: skip

rise_of_slope = equation(
    "Rise from the plate to the ridge", "run * tan(slope)", Symbol("f", "length"), "geometry",
    run=Symbol("s", "length", "from the plate to the ridge on plan"), slope=Symbol("α", "angle"),
)  # fmt: skip

EQUATIONS = (area_hung, share_carried, area_of_plan, part_of, rise_of_slope)


def _plan(building: Building, need: Needs, roof: str) -> RoofPlan | None:
    plan = roof_plan(building, roof)
    return plan if plan is not None and len(plan.lines) > 1 else None


def area_share(building: Building, roof: Subject) -> Fact:
    """The stated plan area over the one that follows from the plan with eaves and rakes."""
    described, need = building.project.roofs[roof.mark], Needs(roof)
    plan = _plan(building, need, roof.mark)
    if plan is None and described.radius is None:
        return without_meaning(_TELLS_NOT)
    area = need.field(si(described.plan_area), "roofs", roof.mark, "plan_area")
    eave = need.field(si(described.overhang), "roofs", roof.mark, "overhang")
    if plan is None:
        return without_meaning(_TELLS_NOT)
    if plan.length is None:
        need.field(None, "roofs", roof.mark, "rake")
    if need.lacks or plan.width is None or plan.length is None or eave is None:
        return need.lacking
    derived = area_of_plan(plan.width, max(plan.length, plan.walls_length))
    return need.worked(derived, part_of(area, derived))


def tributary_share(building: Building, roof: Subject) -> Fact:
    """The least of the stated tributary widths over those of the plan."""
    described, need = building.project.roofs[roof.mark], Needs(roof)
    named = part_of.of_kinds(stated="length", derived="length").titled("Stated width over that of the plan")
    found = []
    for index, bearing in enumerate(described.bears_on):
        if bearing.tributary is not None and (plan := width_of_plan(building, need, roof.mark, index)) is not None:
            found.append((bearing.tributary.si, plan))
    if need.lacks:
        return need.lacking
    if not found:
        return without_meaning("no width is both stated and given by the plan, so there is nothing to compare")
    stated, derived = min(found, key=lambda one: one[0] / one[1])
    return need.worked(derived, named(stated, derived))


def span_share(building: Building, roof: Subject) -> Fact:
    """The stated span over the nearest that the plan allows, from face to face and outer face to outer face of the
    walls that the roof bears on: 1 between the two."""
    need = Needs(roof)
    plan = _plan(building, need, roof.mark)
    if plan is None:
        return without_meaning(_TELLS_NOT)
    span, option = need.number("roof.span"), widest_span(plan)
    if need.lacks:
        return need.lacking
    thick = max(one.thickness for one in plan.bearings)
    nearest = min(max(span, option - thick), option + thick)
    named = part_of.of_kinds(stated="length", derived="length").titled("Stated span over the nearest of the plan")
    return need.worked(named(span, nearest))


def widest_span(plan: RoofPlan) -> float:
    """The widest way between two neighboring lines of walls [m]."""
    return max(after - before for before, after in pairwise(plan.lines))


def span_used(building: Building, need: Needs, roof: str) -> float:
    """The greater of the stated span and the one between center lines of walls: what thrust goes by [m]."""
    stated, plan = need.number_of(building.subject("roof", roof).fact("roof.span")), roof_plan(building, roof)
    return stated if plan is None or len(plan.lines) < 2 or need.lacks else max(stated, widest_span(plan))


def rise_used(building: Building, need: Needs, roof: str) -> float:
    """The lesser of the stated rise and the one of the slope: what thrust goes by [m]."""
    stated = need.field(si(building.project.roofs[roof].rise), "roofs", roof, "rise")
    share = building.subject("roof", roof).fact("roof.rise_share")
    if stated is None or not isinstance(share.value, float) or share.value <= 1 or math.isinf(share.value):
        return stated
    return stated / share.value


def rise_share(building: Building, roof: Subject) -> Fact:
    """The stated rise over the one that follows from the slope and the run between plate and ridge."""
    described, need = building.project.roofs[roof.mark], Needs(roof)
    if described.rise is None or described.kind in ("vault", "other", "reciprocal"):
        return without_meaning("no rise is stated that could be held against the slope")
    slope, rise = need.number("roof.slope"), described.rise.si
    run = _run_to_ridge(building, need, roof.mark)
    if need.lacks:
        return need.lacking
    if slope <= 0:
        step = Step(
            "A roof without slope does not rise",
            formula="",
            given=(),
            result=Given("f", rise, "length"),
            source="geometry",
        )
        return need.known(math.inf, lambda: (step,))
    if run is None or slope >= math.pi / 2:
        return without_meaning("nothing tells how far the ridge stands from the plate")
    derived = rise_of_slope(run, slope)
    named = part_of.of_kinds(stated="length", derived="length").titled("Stated rise over that of the slope")
    return need.worked(derived, named(rise, derived))


def _run_to_ridge(building: Building, need: Needs, roof: str) -> float | None:
    """From the plate, over the middle of the wall, to the ridge on plan [m]: the run less what is past the wall."""
    described = building.project.roofs[roof]
    run = si(described.run)
    if described.radius is not None:
        inner = need.field(si(described.ring_radius), "roofs", roof, "ring_radius")
        return None if inner is None else described.radius.si - inner
    if run is not None:
        eave = need.field(si(described.overhang), "roofs", roof, "overhang")
        plan = roof_plan(building, roof)
        thick = min((one.thickness for one in plan.bearings), default=0.0) if plan else 0.0
        return None if eave is None else run - eave - thick / 2
    return None if described.span is None else span_used(building, need, roof) / 2


def ridge_bearings(building: Building, roof: Subject) -> Fact:
    """Whether everything that a beam of the roof stands on is described: its supports, each with its place and plate.
    Without a ridge beam or any other there is nothing to say."""
    described, mark = building.project.roofs[roof.mark], roof.mark
    held = described.thrust_held_by == "ridge-beam"
    if not held and not described.beams:
        return without_meaning("no beam is said to carry the roof")
    need = Needs(roof)
    if held and not any(one.kind == "ridge" for one in described.beams.values()):
        return lacking(("roofs", mark, "beams"))
    for beam, one in described.beams.items():
        path = ("roofs", mark, "beams", beam, "bears_on")
        if len(one.bears_on) < 2:
            need.field(None, *path)
        for place, bearing in enumerate(one.bears_on):
            if bearing.point is not None:
                continue
            for field in ("wall", "at", "length", "width", "eccentricity"):
                need.field(getattr(bearing, field), *path, place, field)
    return known(True) if not need.lacks else need.lacking


def beam_kinds(building: Building, roof: Subject) -> Fact:
    """Whether the beams of the roof are such as the screening works out: no valley or hip rafter, all on walls."""
    described = building.project.roofs[roof.mark]
    if not described.beams:
        return without_meaning("no beam is described under the roof")
    plain = all(one.kind in WORKED for one in described.beams.values())
    on_walls = all(each.point is None for one in described.beams.values() for each in one.bears_on)
    return known(plain and on_walls)
