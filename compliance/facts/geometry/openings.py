"""Openings and the piers between them, along the centre line of a wall, in metres."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, known, lacking, si, solved, stated, without_meaning
from compliance.facts.geometry.described import field_facts
from compliance.facts.geometry.wall_plan import Support
from compliance.model.walls import Opening, Wall
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step

_SAME = 1e-8  # of the wall's length: openings no farther apart touch. More than the overlap that the reading lets pass


@record
class Hole:
    """An opening as a hole in the face of its wall: `start` and `end` along it, `sill` above the stem."""

    mark: str
    start: float
    end: float
    sill: float
    height: float

    @property
    def width(self) -> float:
        return self.end - self.start


@record
class Pier:
    """A solid length between two openings, or between an opening and an end of the wall."""

    mark: str
    start: float
    end: float
    height: float
    at_end: bool
    between: tuple[str, str]

    @property
    def width(self) -> float:
        return self.end - self.start


@record
class Opened:
    """The openings of one wall, in order, and the piers they leave. Both empty where there is no opening."""

    holes: tuple[Hole, ...]
    piers: tuple[Pier, ...]

    @property
    def widths(self) -> float:
        """Length of the wall that is open somewhere in its height; openings above each other count once."""
        return sum(end - start for start, end, _ in _stretches(self.holes))

    @property
    def area(self) -> float:
        return sum(hole.width * hole.height for hole in self.holes)


def opened(wall: Wall, length: float) -> Opened:
    """Openings and piers of a wall of `length`. A pier of no width is kept: it has a width of zero."""
    holes = _holes(wall, length)
    if not holes:
        return Opened((), ())
    stretches = _stretches(holes)
    edges = [0.0, *(edge for start, end, _ in stretches for edge in (start, end)), length]
    names = ["the start of the wall", *(marks for *_, marks in stretches), "the end of the wall"]
    piers = []
    for index in range(len(stretches) + 1):
        start, end = edges[2 * index], edges[2 * index + 1]
        beside = stretches[max(index - 1, 0) : index + 1]
        height = max(hole.height for hole in holes if any(s <= hole.start and hole.end <= e for s, e, _ in beside))
        at_end = index in (0, len(stretches))
        piers.append(Pier(f"P{index + 1}", start, end, height, at_end, (names[index], names[index + 1])))
    return Opened(holes, tuple(piers))


def _holes(wall: Wall, length: float) -> tuple[Hole, ...]:
    """The openings in order. One that touches another or an end of the wall does so exactly: a last digit lost in
    adding lengths must leave no sliver of wall beside it, and no opening over another."""
    spans = {mark: (one.start.si, one.start.si + one.width.si) for mark, one in wall.openings.items()}
    slack, places = _SAME * length, [0.0, *(end for _, end in spans.values())]
    found = []
    for mark, (start, end) in spans.items():
        touched = (place for place in places if abs(place - start) <= slack and place < min(end, length))
        first = max(touched, default=start)
        last = length if abs(end - length) <= slack and first < length else end
        found.append(Hole(mark, first, last, wall.openings[mark].sill.si, wall.openings[mark].height.si))
    return tuple(sorted(found, key=lambda hole: (hole.start, hole.mark)))


def _stretches(holes: tuple[Hole, ...]) -> list[tuple[float, float, str]]:
    """Lengths of the wall that are open: overlapping openings merged, with their marks joined."""
    stretches: list[tuple[float, float, str]] = []
    for hole in holes:
        if stretches and hole.start < stretches[-1][1]:
            start, end, marks = stretches[-1]
            stretches[-1] = (start, max(end, hole.end), f"{marks} and {hole.mark}")
        else:
            stretches.append((hole.start, hole.end, hole.mark))
    return stretches


def pier_facts(pier: Pier, thickness: float) -> dict[str, Fact]:
    """`thickness` is the wall's least."""
    width = length_between.titled(f"Solid length between {pier.between[0]} and {pier.between[1]}").giving("b")
    return {
        "pier.width": solved(width(pier.start, pier.end)),
        "pier.height": known(pier.height),
        "pier.width_to_thickness": solved(width_over_thickness(pier.width, thickness)),
        "pier.at_end": known(pier.at_end),
    }


length_between = equation(
    "Length between", "end - start", Symbol("", "length"), "from the plan",
    start=Symbol("s₁", "length"), end=Symbol("s₂", "length"),
)  # fmt: skip

width_over_thickness = equation(
    "Width of the pier over thickness", "width / thickness", Symbol(""), "by definition",
    width=Symbol("b", "length"), thickness=Symbol("t", "thickness"),
)  # fmt: skip

earth_over_opening = equation(
    "Earth over the opening", "height - sill - opening", Symbol("", "length"), "from the elevation",
    height=Symbol("h", "length"), sill=Symbol("sill", "length"), opening=Symbol("height", "length"),
)  # fmt: skip

EQUATIONS = (length_between, width_over_thickness, earth_over_opening)


def opening_facts(
    wall_mark: str, mark: str, opening: Opening, hole: Hole, height: float, length: float, supports: tuple[Support, ...]
) -> dict[str, Fact]:
    """`height` and `length` of the wall; `supports` all that meets it, whether it braces the wall or not."""
    path = ("walls", wall_mark, "openings", mark)
    facts = {
        "opening.kind": known(opening.kind),
        "opening.width": known(hole.width),
        "opening.height": known(hole.height),
        "opening.head": solved(earth_over_opening(height, hole.sill, hole.height)),
        "opening.share": known(hole.width / length),
        "opening.corner_distance": _corner_distance(hole, length, supports),
        **_bay(hole, length, supports),
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


def _bay(hole: Hole, length: float, supports: tuple[Support, ...]) -> dict[str, Fact]:
    """The stretch of wall between the lateral supports on either side, and the clear way to the nearer of them."""
    counted = [support for support in supports if not support.why_not]
    before = max((one.s for one in counted if one.s <= hole.start), default=0.0)
    after = min((one.s for one in counted if one.s >= hole.end), default=length)
    bay = solved(length_between.titled("Length between the supports beside the opening").giving("L")(before, after))
    ways = [(max(max(hole.start - one.s, one.s - hole.end) - one.half_width, 0.0), one.by) for one in counted]
    if not ways:
        return {"opening.bay": bay, "opening.brace_distance": without_meaning("nothing supports the wall sideways")}
    way, by = min(ways)
    says = f"Clear distance from the opening to {by}, the nearest lateral support"
    step = Step(says, "", (), Given("", way, "length"), "from the plan")
    return {"opening.bay": bay, "opening.brace_distance": known(way, lambda: (step,))}


def _lintel(opening: Opening, path: tuple[str, ...]) -> dict[str, Fact]:
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
