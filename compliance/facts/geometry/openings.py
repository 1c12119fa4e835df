"""Openings and the piers between them, along the centre line of a wall, in metres."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, known, solved
from compliance.model.walls import Wall
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol

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
        piers.append(
            Pier(
                f"P{index + 1}",
                start=start,
                end=end,
                height=height,
                at_end=at_end,
                between=(names[index], names[index + 1]),
            )
        )
    return Opened(holes, tuple(piers))


def opened_all_round(wall: Wall, length: float) -> Opened:
    """The same of a closed wall: where it begins and ends is one pier, which starts below zero."""
    found = opened(wall, length)
    if len(found.piers) < 2:
        return found
    first, *between, last = found.piers
    height = max(first.height, last.height)
    names = last.between[0], first.between[1]
    whole = Pier(
        first.mark, start=last.start - length, end=first.end, height=height, at_end=False, between=names
    )  # fmt: skip
    return Opened(found.holes, (whole, *between))


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
        found.append(
            Hole(mark, start=first, end=last, sill=wall.openings[mark].sill.si, height=wall.openings[mark].height.si)
        )
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
    width = length_between.titled(f"Clear width between {pier.between[0]} and {pier.between[1]}").giving("b")
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
    "Clear width of the pier over thickness", "width / thickness", Symbol(""), "by definition",
    width=Symbol("b", "length"), thickness=Symbol("t", "thickness"),
)  # fmt: skip

earth_over_opening = equation(
    "Earth over the opening", "height - sill - opening", Symbol("", "length"), "from the elevation",
    height=Symbol("h", "length"), sill=Symbol("sill", "length"), opening=Symbol("height", "length"),
)  # fmt: skip

EQUATIONS = (length_between, width_over_thickness, earth_over_opening)
