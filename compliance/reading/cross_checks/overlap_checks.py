"""Two things in one place, and lintels that rest on nothing: what cannot be built as it is drawn."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

from compliance.facts.geometry.wall_plan import WallLine, neighbours, too_crowded, wall_line
from compliance.model.lines import Line, Straight
from compliance.model.project import Project
from compliance.model.walls import Opening, Wall
from compliance.problems import Problem
from compliance.reading.yaml.placed import PlacedDict, place_of

_INCH = 0.0254
_SAME = 1e-6
_STEP = 0.1
"""How far apart the places are at which two walls are looked at, m."""
_ALIKE = math.sin(math.radians(15))
"""Walls that turn by less than this run side by side."""


def overlap_problems(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """Walls within one another, openings across a crossing wall, lintels on one length of wall or past its end."""
    lines = [found for mark, wall in project.walls.items() if (found := wall_line(mark, wall))]
    if too_crowded(lines):  # which is a problem of its own
        return
    met: dict[str, list[tuple[float, WallLine]]] = {one.mark: [] for one in lines}
    for one, other in neighbours(lines):
        if one.story != other.story:
            continue
        if not _alike(one, other) and (lies_within(one, other) or lies_within(other, one)):
            wrong = f"{other.mark} lies within {one.mark} along more than the thickness of either"
            place = place_of(tree, ("walls", other.mark), at_key=True)
            yield Problem(place, "walls-overlap", wrong, "correct the points of one of them, or remove it")
        for held, crossing in ((one, other), (other, one)):
            met[held.mark] += [(station, crossing) for station in _ends_on(crossing, held)]
    placed = {one.mark: one for one in lines}
    for mark, wall in project.walls.items():
        if mark in placed:
            yield from _across_joints(mark, wall, met[mark], tree)
            yield from _lintels(mark, wall=wall, line=placed[mark], lines=lines, tree=tree)


def _alike(one: WallLine, other: WallLine) -> bool:
    """Whether two walls have one line, which has a problem of its own."""
    ends = [sorted(wall.line.point(share * wall.line.length) for share in (0, 0.5, 1)) for wall in (one, other)]
    return all(math.dist(a, b) <= 1e-3 for a, b in zip(*ends, strict=True))


@lru_cache(maxsize=4096)
def lies_within(one: WallLine, other: WallLine) -> bool:
    """Whether a wall runs along within another farther than both are thick. Walls that join end to end do not."""
    length, reach = one.line.length, (one.thickness + other.thickness) / 2 - _INCH
    left, low, right, high = other.line.box()
    x0, y0, x1, y1 = one.line.box()
    if x1 <= left - reach or x0 >= right + reach or y1 <= low - reach or y0 >= high + reach:
        return False
    steps = max(min(math.ceil(length / _STEP), 500), 1)
    most = max(one.thickness, other.thickness) + _STEP
    if _length_in_box(one.line, (left - reach, low - reach, right + reach, high + reach)) + length / steps <= most:
        return False
    within = 0.0
    for place in range(steps):
        station = length * (place + 0.5) / steps
        x, y = point = one.line.point(station)
        if not (left - reach < x < right + reach and low - reach < y < high + reach):
            continue  # no point of the other is as near as its box, and most of a plan is far from it
        s, apart = other.line.nearest(point)
        (x0, y0), (x1, y1) = one.line.direction(station), other.line.direction(s)
        inner = _SAME < s < other.line.length - _SAME
        if inner and apart < reach and abs(x0 * y1 - x1 * y0) < _ALIKE:
            within += length / steps
    return within > most


def _length_in_box(line: Line, box: tuple[float, float, float, float]) -> float:
    """How much of a straight line lies in a box [m], by clipping its length against each pair of sides (Liang and
    Barsky 1984); all of an arc, which is not looked at."""
    if not isinstance(line, Straight):
        return line.length
    first, last = 0.0, 1.0
    for start, end, least, most in zip(line.start, line.end, box[:2], box[2:], strict=True):
        change = end - start
        if change == 0:
            if not least < start < most:
                return 0.0
            continue
        enters, leaves = sorted(((least - start) / change, (most - start) / change))
        first, last = max(first, enters), min(last, leaves)
    return max(last - first, 0.0) * line.length


def _ends_on(crossing: WallLine, wall: WallLine) -> list[float]:
    """Stations of a wall at which another ends on it, inside its length [m]."""
    found = []
    for point in (crossing.line.point(0.0), crossing.line.point(crossing.line.length)):
        station, apart = wall.line.nearest(point)
        if apart <= wall.thickness / 2 + _INCH and wall.thickness < station < wall.line.length - wall.thickness:
            found.append(station)
    return found


def _across_joints(mark: str, wall: Wall, met: list[tuple[float, WallLine]], tree: PlacedDict) -> Iterator[Problem]:
    for name, hole in wall.openings.items():
        start, end = hole.start.si, hole.start.si + hole.width.si
        for station, crossing in met:
            if start + _INCH < station < end - _INCH and hole.sill.si < crossing.height - _INCH:
                wrong = f"{name} of {mark} lies across the joint with {crossing.mark}"
                place = place_of(tree, ("walls", mark, "openings", name, "start"))
                yield Problem(place, "opening-over-corner", wrong, "move the opening, or the crossing wall")


def _lintels(mark: str, wall: Wall, line: WallLine, lines: list[WallLine], tree: PlacedDict) -> Iterator[Problem]:
    holes = sorted(wall.openings.items(), key=lambda one: one[1].start.si)
    for name, hole in holes:
        path = ("walls", mark, "openings", name, "lintel")
        lintel, head = hole.lintel, hole.sill.si + hole.height.si
        if lintel is None:
            continue
        if lintel.material == "bond-beam":
            if abs(head - line.height) > _INCH:
                wrong = (
                    f"the bond beam is said to span {name} of {mark}, but the head of {name} is not at its underside"
                )
                yield Problem(place_of(tree, path), "lintel-off-beam", wrong, "describe a lintel, or raise the head")
            continue
        if head >= line.height * (1 - _SAME):
            wrong = f"{name} reaches the top of {mark}, where no wall stands over its lintel"
            instead = "write lintel: {material: bond-beam}, or leave the lintel out"
            yield Problem(place_of(tree, path), "lintel-over-nothing", wrong, instead)
            continue
        if lintel.depth and not wall.gable and head + lintel.depth.si > line.height + _INCH:
            wrong = f"the lintel of {name} is {lintel.depth} deep, more than stands over its head to the top of {mark}"
            instead = "lower the head, or write lintel: {material: bond-beam} where the beam spans the opening"
            yield Problem(place_of(tree, path), "lintel-through-the-top", wrong, instead)
        if lintel.bearing is None or lintel.material == "arch":
            continue
        for end, room in ((0.0, hole.start.si), (line.line.length, line.line.length - hole.start.si - hole.width.si)):
            if lintel.bearing.si > room + _SAME and _is_free(line, end, lines):
                wrong = f"the lintel of {name} bears on {lintel.bearing}, past the end of {mark}"
                instead = "move the opening away from the end, or shorten the bearing"
                yield Problem(place_of(tree, path), "lintel-past-end", wrong, instead)
    for place, (name, hole) in enumerate(holes):
        for other, next_hole in holes[place + 1 :]:
            if _share_a_length(hole, next_hole):
                wrong = f"the lintels of {name} and {other} of {mark} bear on the same length of wall between them"
                instead = "shorten the bearings, move the openings apart, or let one lintel run over both"
                yield Problem(
                    place_of(tree, ("walls", mark, "openings", other, "lintel")), "lintels-overlap", wrong, instead
                )


def _is_free(line: WallLine, end: float, lines: list[WallLine]) -> bool:
    """Whether no other wall of the story goes on from an end, or meets it there."""
    point = line.line.point(end)
    return all(
        other.line.nearest(point)[1] > other.thickness / 2 + line.thickness / 2 + _INCH
        for other in lines
        if other.mark != line.mark and other.story == line.story
    )


def _share_a_length(one: Opening, other: Opening) -> bool:
    """Whether the lintels of two openings, the first nearer to the wall's start, overlap on the wall between them, at
    levels that overlap too."""
    if not one.lintel or not other.lintel or {one.lintel.material, other.lintel.material} & {"arch", "bond-beam"}:
        return False
    if one.lintel.bearing is None or other.lintel.bearing is None:
        return False
    between = other.start.si - one.start.si - one.width.si
    if between < 0 or one.lintel.bearing.si + other.lintel.bearing.si <= between + _SAME:
        return False
    heads = [hole.sill.si + hole.height.si for hole in (one, other)]
    deep = [hole.lintel.depth.si if hole.lintel and hole.lintel.depth else 0.0 for hole in (one, other)]
    return max(heads) < min(head + high for head, high in zip(heads, deep, strict=True)) or heads[0] == heads[1]
