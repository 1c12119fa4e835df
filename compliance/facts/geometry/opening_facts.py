"""Facts of one opening: its size, its place in the wall and between the supports, its lintel."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, FieldPath, known, lacking, si, solved, stated, without_meaning
from compliance.facts.geometry.described import field_facts
from compliance.facts.geometry.openings import Hole, earth_over_opening, length_between
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.geometry.wall_plan import Support
from compliance.model.walls import Opening
from compliance.steps import Given, Step

_SAME = 1e-9
_NO_CORNER = "the wall is a closed ring without corners"


def opening_facts(path: FieldPath, opening: Opening, hole: Hole, view: WallView) -> dict[str, Fact]:
    """Every fact named `opening.…` of one opening: `hole` is its place in the whole wall that `view` is of."""
    height, length = view.place.height, view.place.line.length
    facts = {
        "opening.kind": known(opening.kind),
        "opening.width": known(hole.width),
        "opening.height": known(hole.height),
        "opening.head": solved(earth_over_opening(height, hole.sill, hole.height)),
        "opening.share": known(hole.width / length),
        "opening.corner_distance": without_meaning(_NO_CORNER) if view.closed
        else _corner_distance(hole, length, view.supports),
        **_bay(hole, view),
        **field_facts("opening", opening, path),
    }  # fmt: skip
    return facts | _lintel(opening, path)


def _corner_distance(hole: Hole, length: float, supports: tuple[Support, ...]) -> Fact:
    """Clear distance to the nearer end of the wall: to the face of what meets the wall there."""

    def face(s: float) -> float:
        at_end = [support.half_width for support in supports if abs(support.s - s) <= support.half_width + 1e-9]
        return max(at_end, default=0.0)

    before, after = hole.start - face(0.0), (length - face(length)) - hole.end
    where = "start" if before <= after else "end"
    s_edge = hole.start if where == "start" else hole.end
    s_face = face(0.0) if where == "start" else length - face(length)
    says = f"Clear distance from the opening to the {where} of the wall"
    to_start, to_end = (length_between.titled(says).naming(start=s, end=e) for s, e in (("s_c", "s_o"), ("s_o", "s_c")))
    return solved(to_start(s_face, s_edge) if where == "start" else to_end(s_edge, s_face))


def _bay(hole: Hole, view: WallView) -> dict[str, Fact]:
    """The length of wall between the lateral supports on either side, and the clear way to the nearer of them, along
    all walls that run on as one. In a ring without supports it is the ring's length."""
    stretch = view.placed.stretch
    first, last = sorted((view.along(hole.start), view.along(hole.end)))
    around = (-stretch.length, 0.0, stretch.length) if stretch.chain.closed else (0.0,)
    counted = [(one.s + off, one) for one in stretch.supports if not one.why_not for off in around]
    before = max((s for s, _ in counted if s <= first + _SAME), default=0.0)
    after = min((s for s, _ in counted if s >= last - _SAME), default=stretch.length)
    bay = solved(length_between.titled("Length between the supports beside the opening").giving("L")(before, after))
    distances = [(max(max(first - s, s - last) - one.half_width, 0.0), one.by) for s, one in counted]
    if not distances:
        return {"opening.bay": bay, "opening.brace_distance": without_meaning("nothing supports the wall sideways")}
    distance, by = min(distances)
    says = f"Clear distance from the opening to {by}, the nearest lateral support"
    step = Step(says, formula="", given=(), result=Given("", distance, "length"), source="from the plan")
    return {"opening.bay": bay, "opening.brace_distance": known(distance, lambda: (step,))}


def _lintel(opening: Opening, path: FieldPath) -> dict[str, Fact]:
    names = ("lintel", "lintel_bearing", "lintel_depth", "lintel_width")
    lintel = opening.lintel
    if lintel is None:
        return {f"opening.{name}": lacking((*path, "lintel")) for name in names}
    if lintel.material in ("arch", "bond-beam"):
        plain = without_meaning(
            f"the opening is spanned by {'an arch' if lintel.material == 'arch' else 'the bond beam'}"
        )
        return {"opening.lintel": known(lintel.material)} | {f"opening.{name}": plain for name in names[1:]}
    return {
        "opening.lintel": known(lintel.material),
        "opening.lintel_bearing": stated(si(lintel.bearing), *path, "lintel", "bearing"),
        "opening.lintel_depth": stated(si(lintel.depth), *path, "lintel", "depth"),
        "opening.lintel_width": stated(si(lintel.width), *path, "lintel", "width"),
    }
