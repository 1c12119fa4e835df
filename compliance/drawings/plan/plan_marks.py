"""Marks of a plan: walls with their thickness, openings, buttresses, what holds a wall sideways, north."""

from __future__ import annotations

import math
from collections.abc import Iterator

from compliance.drawings.common.board import LabelLine
from compliance.drawings.common.draft import elevation_key
from compliance.drawings.common.inches import written
from compliance.drawings.common.lettering import Role, one_line
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Box, Pen, Point, Sign, Tone, box_about
from compliance.drawings.common.regions import left_of, shifted
from compliance.drawings.elevation.elevation_labels import HELD, NOT_HELD
from compliance.drawings.plan.plan_cuts import draw_cuts
from compliance.drawings.plan.plan_face import PlanFace
from compliance.drawings.plan.plan_shape import buttress_side
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.geometry.wall_plan import Support
from compliance.model.lines import Line

_SIGN = 4.8
_NORTH = 15.0


def draw_marks(face: PlanFace, again: frozenset[str] = frozenset()) -> None:
    """Of walls in `again`, which have another plan, only their mark, and that only where there is room."""
    for view in face.subject.views.values():
        _wall(face, view, view.mark in again)
    views = [view for view in face.subject.views.values() if view.mark not in again]
    for view in views:
        for hole in view.opened.holes:
            _opening(face, view, hole.mark, (hole.start + hole.end) / 2)
    for mark, buttress in face.subject.buttresses.items():
        if buttress.wall in again:
            continue
        view = face.subject.views[buttress.wall]
        line, s = view.place.line, min(buttress.at.si, view.place.line.length)
        side = buttress_side(buttress, face.subject.outside.get(buttress.wall))
        out = view.place.thickness / 2 + buttress.projection.si
        at = face.at(shifted(line.point(s), *left_of(line, s), side * out))
        label = (LabelLine(mark, Role.MARK),)
        spots = around(at, *face.board.size(label), clear=buttress.width.si / 2 * face.scale.per_metre)
        face.board.label(label, spots, f"Plan: the mark of buttress {mark}", at)
    for view in views:
        for support in view.supports:
            _support(face, view, support)
    for room, of in face.subject.rooms.items():
        at = face.at((of.at[0].si, of.at[1].si))
        name = (LabelLine(one_line(of.name), Role.HEADING),)
        wide, high = face.board.size(name)
        places = [box_about(at, wide, high), *around(at, wide, high)]
        face.board.label(name, places, f"Plan: the name of room {room}, {one_line(of.name)}", at)
    draw_cuts(face, [one for one in face.subject.cuts if one.wall not in again])


def _sides(face: PlanFace, view: WallView) -> tuple[int, int]:
    """The inside of the wall first."""
    outside = face.subject.outside.get(view.mark)
    inside = -outside if outside is not None else 1
    return inside, -inside


def _wall(face: PlanFace, view: WallView, again: bool) -> None:
    """The mark with the thickness at the base, on the wall where it is thick enough, else beside it."""
    thick = written(face.board.metrics.writer, view.place.thickness, "thickness")
    mark = LabelLine(view.mark, Role.MARK, link=elevation_key(view.mark))
    lines: tuple[LabelLine, ...]
    for lines in ((mark, LabelLine(thick)), (mark,)):
        wide, high = face.board.size(lines)
        spots = list(spots_along(face, view, wide, high))
        box = face.board.placer.first(spots)
        if box is not None:
            face.board.write(lines, box, plate=True)
            return
    if again:
        return
    named = f"Plan: the mark of wall {view.mark}, {thick} thick"
    at = face.at(view.place.line.point(view.place.line.length / 2))
    face.board.label((mark,), around(at, wide, high), named, at)


def spots_along(face: PlanFace, view: WallView, width: float, height: float) -> Iterator[Box]:
    """Spots beside the wall at the middle of its solid lengths, the longest first, inside before outside."""
    line, half = view.place.line, view.place.thickness / 2 * face.scale.per_metre
    piers = [(pier.start, pier.end) for pier in view.opened.piers] or [(0.0, line.length)]
    stations = [
        (a + share * (b - a))
        for a, b in sorted(piers, key=lambda one: one[0] - one[1])
        for share in (0.5, 0.35, 0.65, 0.2)
    ]
    for side in _sides(face, view):
        for s in stations:
            yield beside(face, line=line, s=s, side=side, clear=half + 3.0, width=width, height=height)


def beside(face: PlanFace, line: Line, s: float, side: int, clear: float, width: float, height: float) -> Box:
    """A box that just clears the face of the wall at station `s`."""
    nx, ny = left_of(line, s)
    out = clear + width / 2 * abs(nx) + height / 2 * abs(ny)
    return box_about(shifted(face.at(line.point(s)), side * nx, side * ny, out), width, height)


def _opening(face: PlanFace, view: WallView, mark: str, s: float) -> None:
    label = (LabelLine(mark, Role.MARK),)
    wide, high = face.board.size(label)
    half = view.place.thickness / 2 * face.scale.per_metre
    line = view.place.line
    for side in _sides(face, view):
        box = face.board.placer.first(
            [beside(face, line=line, s=s, side=side, clear=half + 2.0, width=wide, height=high)]
        )
        if box is not None:
            face.board.write(label, box, plate=True)
            return
    at = face.at(line.point(s))
    named = f"Plan: the mark of opening {mark} of wall {view.mark}"
    face.board.label(label, around(at, wide, high, half), named, at, plate=True)


def _support(face: PlanFace, view: WallView, support: Support) -> None:
    """On the wall that is held, just beside what meets it: filled where it counts, crossed where not."""
    line = view.place.line
    aside = support.half_width + (_SIGN / 2 + 2.0) / face.scale.per_metre
    offsets = (aside, -aside) if support.s < line.length / 2 else (-aside, aside)
    further = (_SIGN + 1.5) / face.scale.per_metre
    stations = [support.s + offset + math.copysign(step * further, offset) for step in range(4) for offset in offsets]
    for s in stations:
        if 0 < s < line.length:
            box = box_about(face.at(line.point(s)), _SIGN, _SIGN)
            if face.board.placer.free(box, off_lines=False):
                face.board.placer.take(box)
                face.board.items.append(Sign(NOT_HELD if support.why_not else HELD, box))
                return
    counts = f"not counted, it {support.why_not}" if support.why_not else "counts as a lateral support"
    face.board.unset.append(f"Plan: {support.by} meets {view.mark}, {counts}")


def draw_north(face: PlanFace) -> None:
    """An arrow to true north, or the words that it is not stated; to the lower right of the plan."""
    frame, north = face.board.frame, face.subject.north
    if north is None:
        text = "north not stated"
        wide = face.board.metrics.letters(text, Role.NOTE)
        face.board.line_at(text, Role.NOTE, frame.right - wide - 6.0, frame.bottom + 4.0)
        return
    centre = (frame.right - 29.0, frame.bottom + 29.0)
    dx, dy = math.sin(north), math.cos(north)

    def point(along: float, across: float) -> Point:
        return centre[0] + along * dx + across * dy, centre[1] + along * dy - across * dx

    tip, tail = point(_NORTH, 0.0), point(-_NORTH, 0.0)
    face.board.stroke(tail, tip, pen=Pen.EDGE)
    face.board.fill((tip, point(_NORTH - 9.0, 3.2), point(_NORTH - 9.0, 0.0)), Tone.INK)
    face.board.stroke(tip, point(_NORTH - 9.0, 3.2), point(_NORTH - 9.0, -3.2), pen=Pen.EDGE, closed=True)
    wide, high = face.board.metrics.letters("N", Role.MARK), Role.MARK.height
    letter = box_about(point(_NORTH + 7.0, 0.0), wide, high)
    face.board.line_at("N", Role.MARK, letter.left, letter.bottom)
