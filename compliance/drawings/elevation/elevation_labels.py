"""Lettering of an elevation: marks of openings, piers and supports, levels, loads, and findings at their place."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.drawings.common.board import LabelLine
from compliance.drawings.common.inches import written
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Box, Bubble, Pen, box_about
from compliance.drawings.elevation.elevation_flags import draw_flags
from compliance.drawings.elevation.wall_face import Face
from compliance.drawings.plan.plan_cuts import RADIUS, off_supports
from compliance.facts.geometry.openings import Hole
from compliance.facts.geometry.wall_facts import ends_of_section

HELD, NOT_HELD = "held", "not-held"
"""Names of the signs for what counts as a lateral support and what does not."""
_ARROW = 11.0
_PAST = 7.0


def draw_labels(face: Face) -> None:
    """In the order of weight: what comes later finds the places that are left."""
    holes = [hole for hole in face.subject.view.opened.holes if face.shows((hole.start + hole.end) / 2)]
    for hole in holes:
        _opening_mark(face, hole)
    _supports(face)
    _loads(face)
    draw_levels(face)
    draw_flags(face)
    _piers(face)
    _cut(face)


def _opening_mark(face: Face, hole: Hole) -> None:
    kind = face.subject.parts.wall.openings[hole.mark].kind
    whole = (LabelLine(hole.mark, Role.MARK), LabelLine(kind))
    box = face.box(hole.start, hole.end, hole.sill, hole.sill + hole.height)
    for lines in (whole, whole[:1]):
        wide, high = face.board.size(lines)
        for spot in _inside(box, wide, high):
            if face.board.placer.free(spot):
                face.board.placer.take(spot)
                face.board.write(lines, spot)
                return
    lines = whole[:1]
    named = f"{face.subject.view.mark}: the mark of opening {hole.mark}"
    edge = (box.left, box.bottom + 0.6 * box.height)
    face.board.label(lines, _beside(box, *face.board.size(lines)), named, edge, plate=True)


def _inside(box: Box, width: float, height: float) -> Iterator[Box]:
    for share in (0.62, 0.8, 0.4, 0.2):
        for across in (0.4, 0.5, 0.3, 0.24, 0.65):
            spot = box_about((box.left + across * box.width, box.bottom + share * box.height), width, height)
            if box.holds(spot.grown(1.0)):
                yield spot


def _beside(box: Box, width: float, height: float) -> Iterator[Box]:
    """To the left of the opening, under it, over it, then wherever a line can lead to it."""
    x, y = box.centre
    for share in (0.6, 0.3, 0.9):
        yield box_about((box.left - 2.0 - width / 2, box.bottom + share * box.height), width, height)
    yield box_about((x, box.bottom - height / 2 - 2), width, height)
    yield box_about((x, box.top + height / 2 + 8), width, height)
    yield from around((box.left, y), width, height)


def _supports(face: Face) -> None:
    """Over the wall, at the station of each thing that meets it: its mark, and whether it counts."""
    y = face.y(face.subject.parts.levels.highest)
    for one in face.supports:
        x = face.x(one.s)
        line = (LabelLine(one.by, Role.MARK, NOT_HELD if one.why_not else HELD),)
        wide, high = face.board.size(line)
        spots = [
            box_about((x + shift, y + 6 + high / 2 + rise), wide, high)
            for rise in (0.0, high + 1, 2 * (high + 1))
            for shift in (0.0, wide / 2, -wide / 2, wide + 4, -wide - 4, 2 * wide + 8, -2 * wide - 8)
        ]
        says = f"not counted as a support, it {one.why_not}" if one.why_not else "counts as a lateral support"
        face.board.label(line, spots, f"{face.subject.view.mark}: {one.by}, {says}", (x, y + 2))


def _loads(face: Face) -> None:
    """Single loads as arrows on top of the wall."""
    y = face.y(face.subject.parts.levels.highest)
    for mark, load in face.subject.parts.wall.loads.items():
        if face.shows(load.at.si):
            x = face.x(load.at.si)
            top = (x, y + _ARROW)
            face.board.stroke(top, (x, y), pen=Pen.EDGE)
            face.board.stroke((x - 2.5, y + 4.5), (x, y), (x + 2.5, y + 4.5), pen=Pen.EDGE)
            line = (LabelLine(f"load {mark}"),)
            named = f"{face.subject.view.mark}: the mark of load {mark}"
            face.board.label(line, around(top, *face.board.size(line)), named, top)


def level_texts(face: Face) -> list[tuple[float, tuple[str, ...]]]:
    """Levels of the wall over the top of the stem wall in m, and what is written at each."""
    levels, writer = face.subject.parts.levels, face.board.metrics.writer
    base, top = (written(writer, one, "thickness") for one in ends_of_section(face.subject.parts.wall))
    named = [
        (levels.beam_top, ("top of the", "bond beam")),
        (levels.top, ("top of the earth", f"{top} thick")),
        (0.0, ("foot of the earth", f"{base} thick")),
        (levels.floor, ("finished floor",)),
        (levels.grade, ("ground outside",)),
        (levels.footing_bottom, ("underside of", "the footing")),
    ]
    return [(height, texts) for height, texts in named if height is not None]


def draw_levels(face: Face) -> None:
    """From the highest down, each label below the one before, so that they never change places."""
    x, under = face.right_edge + 14.0, face.board.frame.top
    for height, texts in level_texts(face):
        y = face.y(height)
        lines = [LabelLine(text) for text in texts]
        wide, high = face.board.size(lines)
        wish = min(y + high / 2, under)
        tops = [wish - step for step in range(0, 60, 2)]
        tops += [wish + step for step in range(2, 60, 2) if wish + step <= under]
        spots = [Box(x + 5, top - high, x + 5 + wide, top) for top in sorted(tops, key=lambda top: abs(top - wish))]
        named = f"{face.subject.view.mark}: {' '.join(texts)}"
        face.board.stroke((face.right_edge, y), (x, y), pen=Pen.MEASURE, avoid=False)
        box = face.board.label(lines, spots, named, (x, y), align="left")
        under = box.bottom if box else under


def _piers(face: Face) -> None:
    for pier in face.subject.view.opened.piers:
        middle = (pier.start + pier.end) / 2
        if face.shows(middle) and pier.width > 1e-9:
            line = (LabelLine(pier.mark, Role.CODE),)
            wide, high = face.board.size(line)
            x = face.x(middle)
            levels = [face.y(0.0) + 3 + high / 2 + step for step in range(0, 60, 4)]
            spots = [box_about((x, y), wide, high) for y in levels]
            face.board.label(line, spots, f"{face.subject.view.mark}: the mark of pier {pier.mark}", plate=True)


def _cut(face: Face) -> None:
    """The mark of the section through the wall: short lines over and under it, and number over sheet between them,
    where nothing else stands."""
    cut, levels = face.subject.cut, face.subject.parts.levels
    if cut is None:
        return
    piers = [(one.start, one.end) for one in face.subject.view.opened.piers] or [(0.0, face.subject.length)]
    longest = sorted(piers, key=lambda one: one[0] - one[1])
    stations = [a + share * (b - a) for a, b in longest for share in (0.5, 0.4, 0.6, 0.3, 0.7)]
    for s in off_supports(face.subject.view, [one for one in stations if face.shows(one)]):
        for share in (0.5, 0.35, 0.65, 0.8, 0.2):
            box = box_about(face.at(s, share * levels.top), 2 * RADIUS, 2 * RADIUS)
            if face.board.placer.free(box, off_lines=False):
                face.board.placer.take(box)
                for y, past in ((face.y(levels.highest), _PAST), (face.y(levels.lowest), -_PAST)):
                    face.board.stroke((face.x(s), y), (face.x(s), y + past), pen=Pen.CUT)
                face.board.items.append(Bubble(box.centre, RADIUS, cut.number, cut.key))
                return
