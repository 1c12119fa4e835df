"""Lintels: what they carry over each opening, what it does to them, and how they press on the earth at both ends.

All of the wall above counts and nothing arches over: earth that is still wet does not.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from compliance.facts.common.fact import Fact, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Columns, columns
from compliance.facts.geometry.openings import Hole
from compliance.facts.geometry.plan.runs import hole_mark
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.loads.roof_beams import single_loads
from compliance.facts.mechanics.beams import Point, SimpleBeam, uniform
from compliance.facts.mechanics.bearing import bearing_stress
from compliance.facts.mechanics.lintels import force_on_end, lintel_moment, lintel_span
from compliance.facts.mechanics.sections import bending_stress, shear_stress_of_rectangle
from compliance.facts.mechanics.wall_weight import Elevation
from compliance.model.walls import Lintel
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Source, Step

_ARCH = "the opening is spanned by an arch"
_BEAM = "the bond beam spans the opening and runs on over both sides"


@record
class _Spanned:
    """A lintel at work: moment [N·m] and greatest end force [N] of a simple span, with its section [m]."""

    moment: float
    end: float
    width: float
    depth: float
    steps: Callable[[], tuple[Step, ...]]


def lintel_load(building: Building, opening: Subject) -> Fact:
    """Load along the lintel: what stands on the wall over the opening and all of the wall above it [N/m]."""
    need = Needs(opening)
    lintel = lintel_of(building, need)
    found = columns(building, need, building.subject("wall", opening.wall))
    if lintel is not None and lintel.material == "arch":
        return without_meaning(_ARCH)
    if need.lacks or found is None:
        return need.lacking
    hole, top = hole_of(building, opening), need.number("wall.top_load")
    above = sum(_weight_above(one, hole) for one in (found.earth, found.finish) if one) / hole.width
    return need.worked(load_along_lintel(top, above))


load_along_lintel = equation(
    "Load along the lintel", "top + above", Symbol("w", "line_load"), Source("no arching counted on"),
    top=Symbol("w_t", "line_load", "load on the wall's top"),
    above=Symbol("w_o", "line_load", "all of the wall above the opening"),
)  # fmt: skip


def _weight_above(wall: Elevation, hole: Hole) -> float:
    return wall.weight(hole.start, hole.end, hole.sill + hole.height, wall.profile.height)


def hole_of(building: Building, opening: Subject) -> Hole:
    """The opening in the wall as built."""
    view = building.views[opening.wall]
    mark = hole_mark(view.mark, opening.wall, opening.mark.partition(".")[2])
    return next(one for one in view.opened.holes if one.mark == mark)


def lintel_of(building: Building, need: Needs) -> Lintel:
    """The lintel of the opening that `need` is about; the field where it lacks."""
    path = need.subject.path
    mark = str(path[-1])
    return need.field(building.project.walls[need.subject.wall].openings[mark].lintel, *path, "lintel")


def _spanned(building: Building, need: Needs) -> _Spanned | None:
    """None where a value lacks or a lintel has no span, which `need` then says."""
    opening = need.subject
    lintel = lintel_of(building, need)
    if lintel is not None and lintel.material == "arch":
        need.lack(_ARCH)
    if need.lacks:
        return None
    path, even = (*opening.path, "lintel"), need.number("opening.lintel_load")
    clear = need.number("opening.width")
    if lintel.material == "bond-beam":
        wide, deep, bearing = need.number("beam.width"), need.number("beam.depth"), 0.0
    else:
        wide = need.field(si(lintel.width), *path, "width")
        deep = need.field(si(lintel.depth), *path, "depth")
        bearing = need.field(si(lintel.bearing), *path, "bearing")
        if bearing == 0:
            need.lack("the lintel bears on nothing", (*path, "bearing"))
    if need.lacks:
        return None
    spanned = lintel_span(clear, bearing) if bearing else None
    span = clear if spanned is None else spanned
    hole = hole_of(building, opening)
    points = [
        Point(one.at - hole.start + bearing / 2, one.full)
        for one in single_loads(building, need, building.views[opening.wall].mark).values()
        if hole.start <= one.at <= hole.end
    ]
    if points:
        beam = SimpleBeam(span, (*uniform(span, even), *points))
        says = f"Bending moment of a simple span with {len(points)} single load{'s' if len(points) > 1 else ''}"
        moment = lintel_moment.titled(says).without_value(beam.greatest_moment, even=even, span=span)
        one_end = force_on_end.titled("Greatest force on one end")
        end = one_end.without_value(beam.greatest_shear, even=even, span=span)
    else:
        moment, end = lintel_moment(even, span), force_on_end(even, span)
    lines = (spanned, moment, end) if spanned is not None else (moment, end)
    return _Spanned(moment, end=end, width=wide, depth=deep, steps=lambda: tuple(one.step() for one in lines))


def lintel_bending(building: Building, opening: Subject) -> Fact:
    """Bending stress in the lintel [Pa]."""
    need = Needs(opening)
    found = _spanned(building, need)
    if found is None:
        return need.lacking
    stress = bending_stress(found.moment, found.width, found.depth)
    return need.known(float(stress), lambda: (*found.steps(), stress.step()))


def lintel_shear(building: Building, opening: Subject) -> Fact:
    """Shear stress in the lintel [Pa]."""
    need = Needs(opening)
    found = _spanned(building, need)
    if found is None:
        return need.lacking
    stress = shear_stress_of_rectangle(found.end, found.width, found.depth)
    return need.known(float(stress), lambda: (*found.steps(), stress.step()))


def lintel_pressure(building: Building, opening: Subject) -> Fact:
    """Greatest pressure on the earth at the lintel's ends [Pa]."""
    need = Needs(opening)
    lintel = lintel_of(building, need)
    if lintel is not None and lintel.material == "bond-beam":
        return without_meaning(_BEAM)
    found = _spanned(building, need)
    peak = need.use(building.screening["lintel_peak"])
    if found is None or lintel.bearing is None:
        return need.lacking
    hole, view = hole_of(building, opening), building.views[opening.wall]
    profile = _profile(building, need)
    at_head = profile.profile.thickness_at(min(hole.sill + hole.height, view.place.height)) if profile else found.width
    wide, gap = min(found.width, at_head), need.use(building.screening["lintel_gap"])
    says = "Pressure on the earth at each end, on the narrower of lintel and wall"
    room = _least_room(view, hole)
    bearing: float = lintel.bearing.si
    shared = bearing_on_shared_pier(bearing, room, gap) if math.isfinite(room) else None
    if shared is not None and shared < bearing:
        if shared <= 0:
            none = Step("Two lintels on one pier leave nothing to bear on", "", (), Given("b", room, "length"))
            return need.known(math.inf, lambda: (*found.steps(), none))
        bearing = shared
    stress = bearing_stress(found.end, length=bearing, width=wide, peak=peak, title=says)
    lines = (stress,) if bearing is not shared or shared is None else (shared, stress)
    return need.known(float(stress), lambda: (*found.steps(), *(one.step() for one in lines)))


bearing_on_shared_pier = equation(
    "Bearing that counts on a pier under two lintels", "min(bearing, (pier - gap) / 2)",
    Symbol("a", "thickness", "bearing length"), "statics; half each of what the gap between the two leaves",
    bearing=Symbol("a_0", "thickness", "as described"), pier=Symbol("b", "length", "pier between the openings"),
    gap=Symbol("c", "thickness", "between the ends of two lintels"),
)  # fmt: skip


def _least_room(view: WallView, hole: Hole) -> float:
    """The narrower pier beside an opening that carries another lintel at a level that overlaps; infinite without one
    [m]. `view` is the wall as built."""
    head = hole.sill + hole.height
    rooms = []
    for other in view.opened.holes:
        lintel = view.wall.openings[other.mark].lintel
        own = view.wall.openings[hole.mark].lintel
        if other is hole or lintel is None or own is None or lintel.material in ("arch", "bond-beam"):
            continue
        deep = max(si(one.depth) or 0.0 for one in (lintel, own))
        if abs(other.sill + other.height - head) < deep:
            rooms += [gap for gap in (hole.start - other.end, other.start - hole.end) if gap >= 0]
    return min(rooms, default=math.inf)


def _profile(building: Building, need: Needs) -> Columns | None:
    return columns(building, need, building.subject("wall", need.subject.wall))


def bending_allowed(building: Building, opening: Subject) -> Fact:
    """Allowable bending stress of the lintel as stated, of the bond beam where that spans [Pa]."""
    need = Needs(opening)
    lintel = lintel_of(building, need)
    if lintel is not None and lintel.material == "arch":
        return without_meaning(_ARCH)
    if need.lacks:
        return need.lacking
    if lintel.material == "bond-beam":
        return _of_beam(building, need)
    stated = need.field(si(lintel.bending_stress), *opening.path, "lintel", "bending_stress")
    return need.known(stated, lambda: (_stated("Allowable bending stress", stated, lintel.stress_source),))


def _of_beam(building: Building, need: Needs) -> Fact:
    mark = need.field(building.project.walls[need.subject.wall].beam, "walls", need.subject.wall, "beam")
    if need.lacks:
        return need.lacking
    beam = building.project.beams[mark]
    stated = need.field(si(beam.bending_stress), "beams", mark, "bending_stress")
    return need.known(stated, lambda: (_stated("Allowable bending stress", stated, beam.capacity_source),))


def shear_allowed(building: Building, opening: Subject) -> Fact:
    """Allowable shear stress of the lintel as stated [Pa]."""
    need = Needs(opening)
    lintel = lintel_of(building, need)
    if lintel is not None and lintel.material in ("arch", "bond-beam"):
        return without_meaning(_ARCH if lintel.material == "arch" else _BEAM)
    if need.lacks:
        return need.lacking
    stated = need.field(si(lintel.shear_stress), *opening.path, "lintel", "shear_stress")
    return need.known(stated, lambda: (_stated("Allowable shear stress", stated, lintel.stress_source),))


def _stated(says: str, value: float, source: str | None) -> Step:
    return Step(
        says,
        formula="",
        given=(),
        result=Given("F", value, "stress"),
        source=source or "as the project states it, without a source",
    )


EQUATIONS = (load_along_lintel, bearing_on_shared_pier)
