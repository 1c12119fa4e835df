"""Lintels: what they carry over each opening, what it does to them, and how they press on the earth at both ends.

All of the wall above counts and nothing arches over: earth that is still wet does not.
"""

from __future__ import annotations

from collections.abc import Callable

from compliance.facts.common.fact import Fact, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Columns, columns, full_force
from compliance.facts.geometry.openings import Hole
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.beams import Point, SimpleBeam, uniform
from compliance.facts.mechanics.bearing import bearing_stress, bearing_stress_step
from compliance.facts.mechanics.lintels import lintel_moment_step, lintel_shear_step, lintel_span, lintel_span_step
from compliance.facts.mechanics.sections import bending_stress_step, second_moment, shear_stress_step
from compliance.facts.mechanics.wall_weight import Elevation
from compliance.model.walls import Lintel
from compliance.record import record
from compliance.steps import Given, Step

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
    lintel = _lintel(building, need)
    found = columns(building, need, building.subject("wall", opening.wall))
    if lintel is not None and lintel.material == "arch":
        return without_meaning(_ARCH)
    if need.lacks or found is None:
        return need.lacking
    hole, top = _hole(building, opening), need.number("wall.top_load")
    above = sum(_weight_above(one, hole) for one in (found.earth, found.finish) if one) / hole.width
    given = (Given("w_t", top, "line_load", "load on the wall's top"),
             Given("w_o", above, "line_load", "all of the wall above the opening"))  # fmt: skip
    step = Step(
        "Load along the lintel", "w_t + w_o", given, Given("w", top + above, "line_load"), "no arching counted on"
    )
    return need.known(top + above, lambda: (step,))


def _weight_above(wall: Elevation, hole: Hole) -> float:
    return wall.weight(hole.start, hole.end, hole.sill + hole.height, wall.profile.height)


def _hole(building: Building, opening: Subject) -> Hole:
    mark = opening.mark.partition(".")[2]
    return next(one for one in building.views[opening.wall].opened.holes if one.mark == mark)


def _lintel(building: Building, need: Needs) -> Lintel:
    path = need.subject.path
    mark = str(path[-1])
    return need.field(building.project.walls[need.subject.wall].openings[mark].lintel, *path, "lintel")


def _spanned(building: Building, need: Needs) -> _Spanned | None:
    """None where a value lacks or a lintel has no span, which `need` then says."""
    opening = need.subject
    lintel = _lintel(building, need)
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
    span = lintel_span(clear, bearing) if bearing else clear
    hole = _hole(building, opening)
    points = [
        Point(one.at.si - hole.start + bearing / 2, full_force(one))
        for one in building.project.walls[opening.wall].loads.values()
        if hole.start <= one.at.si <= hole.end
    ]
    beam = SimpleBeam(span, (*uniform(span, even), *points))
    moment, end = beam.greatest_moment, beam.greatest_shear

    def steps() -> tuple[Step, ...]:
        spans = (lintel_span_step(clear, bearing),) if bearing else ()
        if not points:
            return (*spans, lintel_moment_step(even, 0.0, span), lintel_shear_step(even, 0.0, span))
        stated = (Given("w", even, "line_load"), Given("L", span, "length"))
        says = f"Bending moment of a simple span with {len(points)} single load{'s' if len(points) > 1 else ''}"
        return (*spans, Step(says, "", stated, Given("M", moment, "moment"), "statics"),
                Step("Greatest force on one end", "", stated, Given("R", end, "force"), "statics"))  # fmt: skip

    return _Spanned(moment, end, wide, deep, steps)


def lintel_bending(building: Building, opening: Subject) -> Fact:
    """Bending stress in the lintel [Pa]."""
    need = Needs(opening)
    found = _spanned(building, need)
    if found is None:
        return need.lacking
    value = found.moment / second_moment(found.width, found.depth) * found.depth / 2
    return need.known(value, lambda: (*found.steps(), bending_stress_step(found.moment, found.width, found.depth)))


def lintel_shear(building: Building, opening: Subject) -> Fact:
    """Shear stress in the lintel [Pa]."""
    need = Needs(opening)
    found = _spanned(building, need)
    if found is None:
        return need.lacking
    value = 1.5 * found.end / (found.width * found.depth)
    return need.known(value, lambda: (*found.steps(), shear_stress_step(found.end, found.width, found.depth)))


def lintel_pressure(building: Building, opening: Subject) -> Fact:
    """Greatest pressure on the earth at the lintel's ends [Pa]."""
    need = Needs(opening)
    lintel = _lintel(building, need)
    if lintel is not None and lintel.material == "bond-beam":
        return without_meaning(_BEAM)
    found = _spanned(building, need)
    peak = need.use(building.screening["lintel_peak"])
    if found is None or lintel.bearing is None:
        return need.lacking
    hole, view = _hole(building, opening), building.views[opening.wall]
    profile = _profile(building, need)
    at_head = profile.profile.thickness_at(min(hole.sill + hole.height, view.place.height)) if profile else found.width
    wide, bearing = min(found.width, at_head), lintel.bearing.si
    value = bearing_stress(found.end, bearing, wide, peak)
    says = "Pressure on the earth at each end, on the narrower of lintel and wall"
    return need.known(value, lambda: (*found.steps(), bearing_stress_step(found.end, bearing, wide, peak, says)))


def _profile(building: Building, need: Needs) -> Columns | None:
    return columns(building, need, building.subject("wall", need.subject.wall))


def bending_allowed(building: Building, opening: Subject) -> Fact:
    """Allowable bending stress of the lintel as stated, of the bond beam where that spans [Pa]."""
    need = Needs(opening)
    lintel = _lintel(building, need)
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
    lintel = _lintel(building, need)
    if lintel is not None and lintel.material in ("arch", "bond-beam"):
        return without_meaning(_ARCH if lintel.material == "arch" else _BEAM)
    if need.lacks:
        return need.lacking
    stated = need.field(si(lintel.shear_stress), *opening.path, "lintel", "shear_stress")
    return need.known(stated, lambda: (_stated("Allowable shear stress", stated, lintel.stress_source),))


def _stated(says: str, value: float, source: str | None) -> Step:
    return Step(says, "", (), Given("F", value, "stress"), source or "as the project states it, without a source")
