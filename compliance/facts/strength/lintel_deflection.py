"""How far a lintel sags under what stands on it: earth over it cracks before the lintel is in danger."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.roof_beams import single_loads
from compliance.facts.mechanics.beams import Point, SimpleBeam, uniform
from compliance.facts.mechanics.lintels import lintel_sag, lintel_span
from compliance.facts.mechanics.sections import second_moment
from compliance.facts.strength.lintel_facts import hole_of, lintel_of
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, positive

_NOT_REQUIRED = "the opening is spanned by an arch or by the bond beam"

span_over_depth = equation(
    "Span over depth of the lintel", "span / depth", Symbol("L/d"), "by definition",
    span=Symbol("L", "length", "span"), depth=positive("d", "thickness", "depth"),
)  # fmt: skip

EQUATIONS = (span_over_depth,)


def span(building: Building, opening: Subject) -> Fact:
    """Span of the lintel between the middles of its bearings [m]."""
    need = Needs(opening)
    found = _span(building, need)
    return need.lacking if need.lacks or found is None else need.worked(found)


def stoutness(building: Building, opening: Subject) -> Fact:
    """Span of the lintel over its depth."""
    need = Needs(opening)
    found, lintel = _span(building, need), lintel_of(building, need)
    deep = need.field(si(lintel.depth), *opening.path, "lintel", "depth") if lintel else None
    return need.lacking if need.lacks or found is None or deep is None else need.solved(span_over_depth, found, deep)


def _span(building: Building, need: Needs) -> Solved | None:
    lintel, path = lintel_of(building, need), (*need.subject.path, "lintel")
    if lintel is None:
        return None
    if lintel.material in ("arch", "bond-beam"):
        need.lack(_NOT_REQUIRED)
        return None
    clear, bearing = need.number("opening.width"), need.field(si(lintel.bearing), *path, "bearing")
    return None if need.lacks or not bearing else lintel_span(clear, bearing)


def sag(building: Building, opening: Subject) -> Fact:
    """Sag of the lintel at once, under dead load with the greater of live load and snow [m]. Wood under lasting load
    sags about twice as far in the end."""
    need = Needs(opening)
    lintel, path = lintel_of(building, need), (*opening.path, "lintel")
    if lintel is not None and lintel.material in ("arch", "bond-beam"):
        return without_meaning(_NOT_REQUIRED)
    long, load = _span(building, need), need.number("opening.lintel_load")
    if lintel is None or long is None:
        return need.lacking
    wide, deep = (need.field(si(getattr(lintel, name)), *path, name) for name in ("width", "depth"))
    modulus = si(lintel.modulus)
    if modulus is None and lintel.material == "wood":
        modulus = need.use(building.screening["lintel_modulus"])
    modulus = need.field(modulus, *path, "modulus")
    hole = hole_of(building, opening)
    standing = single_loads(building, need, building.views[opening.wall].mark).values()
    points = [one for one in standing if hole.start <= one.at <= hole.end]
    if need.lacks:
        return need.lacking
    stiff = second_moment(wide, deep)
    if not points:
        return need.worked(long, lintel_sag(load, long, modulus, stiff))
    edge = (long - hole.width) / 2
    beam = SimpleBeam(long, (*uniform(long, load), *(Point(one.at - hole.start + edge, one.full) for one in points)))
    named = lintel_sag.titled("Sag with the single loads on it")
    return need.worked(long, named.without_value(beam.greatest_deflection(modulus, stiff), even=load, span=long))
