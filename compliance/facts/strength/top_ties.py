"""What ties the top of a wall: anchors into the bond beam, and the bond beam between crossing walls."""

from __future__ import annotations

import math

from compliance.facts.bracing.solid_lengths import chord, extent, house_walls
from compliance.facts.common.coefficients import Coefficient
from compliance.facts.common.fact import Fact, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.plan.stretches import Bay
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.mechanics.anchorage import (
    anchorage_force,
    force_at_top,
    greatest_spacing,
)
from compliance.facts.mechanics.lateral.gables import moment_under_gable
from compliance.facts.mechanics.spans import uniform_moment
from compliance.facts.strength.spanning import assumed_top
from compliance.model.walls import Wall
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step

_FREE = "nothing is said to hold the top of the wall"

allowable_anchorage = equation(
    "Anchorage at the level of allowable stresses", "level * force", Symbol("p_a", "line_load"), "",
    level=Symbol("c"), force=Symbol("p", "line_load"),
)  # fmt: skip

load_on_beam = equation(
    "Sideways load on the bond beam", "reaction + thrust", Symbol("w", "line_load"),
    "statics; the least anchorage of codes is for the anchors alone",
    reaction=Symbol("p", "line_load", "of the wall"), thrust=Symbol("H", "line_load", "roof thrust it holds"),
)  # fmt: skip

moment_across_wall = equation(
    "Allowable moment across the wall", "stress * high * wide ** 2 / 6", Symbol("M_a", "moment"), "statics",
    stress=Symbol("F_b", "stress"), high=Symbol("d", "thickness", "its size upright"),
    wide=Symbol("b", "thickness", "its size across the wall"),
)  # fmt: skip

moment_in_ring = equation(
    "Moment in the bond beam of a ring, from what pushes its sides in turn", "load * radius ** 2 / 3",
    Symbol("M", "moment"), "statics of a closed ring under a load with the cosine of twice the angle",
    load=Symbol("p", "line_load", "anchorage"), radius=Symbol("R", "length", "of its center line"),
)  # fmt: skip

moment_over_support = equation(
    "Moment in the bond beam over its last support", "load * out ** 2 / 2", Symbol("M", "moment"), "statics",
    load=Symbol("w", "line_load"), out=Symbol("c", "length", "past its last support"),
)  # fmt: skip

greater_moment = equation(
    "Moment in the bond beam, the greater of the two", "max(even, gable)", Symbol("M", "moment"),
    "the greater of the two", even=Symbol("M_1", "moment"), gable=Symbol("M_2", "moment", "under the gable"),
)  # fmt: skip


def _gable_over(need: Needs, described: Wall) -> float | None:
    """Height of the gable on the wall [m], if there is one."""
    return need.number("wall.gable_height") if described.gable else None


def anchorage(building: Building, wall: Subject) -> Fact:
    """Force along the wall that must tie its top, at the level of allowable stresses [N/m]."""
    need, mark = Needs(wall), wall.mark
    restraint = assumed_top(need, building, mark)
    if restraint == "free":
        return without_meaning(_FREE)
    pressure, height = need.number("wall.lateral_pressure"), need.number("wall.height")
    sds, importance = need.number("site.sds"), need.number("site.importance")
    per, least = building.screening["anchorage_per_sds"], building.screening["anchorage_least"]
    level = building.screening["seismic_to_allowable"]
    for one in (per, least, level):
        need.use(one)
    if need.lacks:
        return need.lacking
    of_codes = (("Anchorage for each S_DS", per), ("Least anchorage", least))
    allowable = [
        allowable_anchorage.titled(f"{says} at the level of allowable stresses").sourced(one.source)(
            level.given("c"), one.given("p")
        )
        for says, one in of_codes
    ]  # fmt: skip
    computed = force_at_top(pressure, height, 0.0)
    flexible = _with_diaphragm(building, need=need, wall=wall.mark, sds=sds, importance=importance, level=level)
    if need.lacks or flexible is None:
        return need.lacking
    force = anchorage_force(computed, allowable[0], sds, importance, allowable[1], flexible[-1])
    return need.worked(computed, *allowable, *flexible, force)


def _with_diaphragm(
    building: Building, need: Needs, wall: str, sds: float, importance: float, level: Coefficient
) -> tuple[Solved, ...] | None:
    """Anchorage by the weight of the wall that hangs on it, more under a flexible diaphragm with a long span: the
    longer side of the plan is taken for the span."""
    per, least, most = (building.screening[name] for name in ("anchor_per_sds", "anchor_least", "anchor_span_most"))
    for one in (per, least, most):
        need.use(one)
    face, high = need.number("wall.face_weight"), need.number("wall.height")
    views = [building.views[mark] for mark in house_walls(building, need)]
    if need.lacks or not views:
        return None
    seen = extent(views, chord(building.views[wall])[0])
    rigid = building.project.project.diaphragm == "rigid"
    span = 0.0 if rigid else max(seen.across, seen.along)
    factor = span_factor.sourced(most.source)(span, ANCHOR_SPAN, most.given("k_m"))
    weight = weight_on_anchor(face, high)
    force = anchorage_by_weight.sourced(per.source)(
        level.given("c"), per.given("c_1"), sds, least.given("c_0"), factor, importance, weight
    )
    return factor, weight, force


ANCHOR_SPAN = 30.48  # m: 100 ft, the span by which the factor of ASCE 7-10 section 12.11.2.1 grows by one

span_factor = equation(
    "Factor for the span of a flexible diaphragm", "min(1 + span / unit, most)", Symbol("k_a", "ratio"), "",
    span=Symbol("L_f", "length", "span of the diaphragm"), unit=Symbol("L_u", "length", "100 ft"),
    most=Symbol("k_m", "ratio"),
)  # fmt: skip

weight_on_anchor = equation(
    "Weight of wall tied at its top", "face * height / 2", Symbol("W_p", "line_load"), "upper half of the wall",
    face=Symbol("W", "pressure", "weight of the wall's face"), height=Symbol("h", "length"),
)  # fmt: skip

anchorage_by_weight = equation(
    "Anchorage by weight at the level of allowable stresses",
    "level * max(per * sds, least) * factor * importance * weight", Symbol("p_w", "line_load"), "",
    level=Symbol("c"), per=Symbol("c_1"), sds=Symbol("S_DS"), least=Symbol("c_0"), factor=Symbol("k_a"),
    importance=Symbol("I"), weight=Symbol("W_p", "line_load"),
)  # fmt: skip


def anchor_spacing_most(building: Building, wall: Subject) -> Fact:
    """The spacing at which each anchor is loaded to its capacity [m]."""
    need = Needs(wall)
    force, capacity = need.number("wall.anchorage_force"), need.number("beam.anchor_capacity")
    return need.solved(greatest_spacing, force, capacity)


def anchor_capacity(building: Building, beam: Subject) -> Fact:
    """What each anchor of the bond beam may take sideways, as stated [N]."""
    need = Needs(beam)
    anchors = building.project.beams[beam.mark].anchors
    path = ("beams", beam.mark, "anchors")
    stated = need.field(si(anchors.capacity) if anchors else None, *path, "capacity")
    source = anchors.capacity_source if anchors else None
    return need.known(stated, lambda: (_as_stated("Capacity of one anchor", Given("T", stated, "force"), source),))


def _as_stated(says: str, result: Given, source: str | None) -> Step:
    return Step(
        says, formula="", given=(), result=result, source=source or "as the project states it, without a source"
    )


def beam_moment(building: Building, wall: Subject) -> Fact:
    """Moment in the bond beam, lying flat between crossing walls, from anchorage and roof thrust [N·m]."""
    described = building.project.walls[wall.mark]
    if described.top_restraint == "free":
        return without_meaning(_FREE)
    if described.top_restraint == "roof":
        return without_meaning("the roof is said to hold the top of the wall, not the bond beam")
    need = Needs(wall)
    assumed_top(need, building, wall.mark)
    push, stretch = need.number("wall.beam_thrust"), building.views[wall.mark].placed.stretch
    if stretch.ring:
        return need.solved(moment_in_ring, need.number("wall.anchorage_force"), stretch.ring.radius)
    span, divisor = need.number("wall.unsupported_length"), need.use(building.screening["beam_divisor"])
    gable = _gable_over(need, described)
    sideways, high = need.number("wall.lateral_pressure"), need.number("wall.height")
    if need.lacks:
        return need.lacking
    if span <= 0.0:
        return without_meaning("what holds the wall sideways takes up all of its length: the bond beam spans nothing")
    reaction = force_at_top(sideways, high, 0.0)
    line = load_on_beam(reaction, push)
    moment = uniform_moment.titled("Moment in the bond beam between crossing walls")(line, span, divisor)
    if gable is None:
        return need.worked(reaction, line, moment)
    under = moment_under_gable(sideways, high, need.number("wall.length"), gable)
    return need.worked(reaction, line, moment, under, greater_moment(moment, under))


def _loose_end(building: Building, view: WallView, bay: Bay) -> bool:
    """Whether a bay ends where no support and no bracing wall meets it."""
    stretch, walls = view.placed.stretch, building.project.walls
    for station, held in zip((bay.start, bay.end), bay.held, strict=True):
        near = view.place.thickness
        met = {
            mark for one in stretch.supports if abs(one.s - station) <= near for mark in one.at_joint if mark in walls
        }
        if not held and not any(walls[mark].braces for mark in met):
            return True
    return False


def beam_cantilever(building: Building, wall: Subject) -> Fact:
    """Moment in the bond beam over its last support before a free end [N·m]; without limit where no span behind that
    support holds it. A bracing wall that meets the end takes the beam, even where it is too short to hold the wall."""
    described, view = building.project.walls[wall.mark], building.views[wall.mark]
    if described.top_restraint != "bond-beam":
        return without_meaning("no bond beam is said to hold the top of the wall")
    bays = view.placed.stretch.bays()
    ends = [one for one in view.placed.stretch.bays_of(*view.span) if _loose_end(building, view, one)]
    if not ends:
        return without_meaning("the wall has no free end")
    need = Needs(wall)
    sideways, high, push = (
        need.number("wall.lateral_pressure"),
        need.number("wall.height"),
        need.number("wall.beam_thrust"),
    )
    if need.lacks:
        return need.lacking
    if not any(not _loose_end(building, view, one) for one in bays):
        step = Step("No span behind the last support of the bond beam holds its free end", formula="", given=(),
                    result=Given("c", max(one.length for one in ends), "length"), source="from the plan")  # fmt: skip
        return need.known(math.inf, lambda: (step,))
    reaction = force_at_top(sideways, high, 0.0)
    line = load_on_beam(reaction, push)
    return need.worked(reaction, line, moment_over_support(line, max(one.length for one in ends)))


def moment_allowed(building: Building, beam: Subject) -> Fact:
    """What moment the bond beam may take across the wall: as stated, or from the allowable stress of its wood [N·m]."""
    described, need = building.project.beams[beam.mark], Needs(beam)
    if described.moment_capacity is not None or described.material == "concrete":
        stated = need.field(si(described.moment_capacity), "beams", beam.mark, "moment_capacity")
        result = Given("M_a", stated, "moment")
        return need.known(stated, lambda: (_as_stated("Allowable moment", result, described.capacity_source),))
    stress = need.field(si(described.bending_stress), "beams", beam.mark, "bending_stress")
    high, wide = need.number("beam.depth"), need.number("beam.width")
    if need.lacks:
        return need.lacking
    source = described.capacity_source
    first = _as_stated("Allowable bending stress", Given("F_b", stress, "stress"), source)
    moment = moment_across_wall(stress, high, wide)
    return need.known(float(moment), lambda: (first, moment.step()))


EQUATIONS = (
    span_factor,
    weight_on_anchor,
    anchorage_by_weight,
    allowable_anchorage,
    load_on_beam,
    moment_across_wall,
    moment_in_ring,
    moment_over_support,
    greater_moment,
)
