"""What stands in a bracing plan: walls in light lines, bars, the push as an arrow, centres of mass and stiffness."""

from __future__ import annotations

import math

from compliance.drawings.bracing.bracing_subject import WIDEST, SharesSubject, Taken, bar_width
from compliance.drawings.common.board import Board, LabelLine, bow_points, corners_of
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Bow, Box, Pen, Point, Tone, box_about
from compliance.drawings.common.regions import length_of_wall
from compliance.drawings.plan.plan_face import PlanFace

_COVERED_FROM = 2.0
_ARROW, _OFF_WALLS, _HEAD = 34.0, 9.0, 8.0
_CENTRE = 3.6


def draw_bars(face: PlanFace, subject: SharesSubject) -> None:
    """Walls in light lines, and in each solid length that takes part a bar as wide as its share."""
    for edge in subject.plan.shape.edges:
        face.ink(edge, Pen.FINE)
    greatest = subject.greatest
    for one in subject.taken:
        line = subject.plan.views[one.wall].place.line
        held = math.isfinite(one.share)
        if held and one.share <= 0:
            continue
        wide = bar_width(one.share, greatest) if held else WIDEST
        region = length_of_wall(line, one.start, one.end, wide / face.scale.per_metre)
        points = face.points(region.points())
        if held:
            face.board.fill(points, Tone.INK)
            _keep_clear(face, one, wide)
        face.board.stroke(*points, pen=Pen.FINE if held else Pen.HIDDEN, closed=True)


def _keep_clear(face: PlanFace, one: Taken, wide: float) -> None:
    """No label covers a bar that is wide enough to be told from its outline."""
    if wide < _COVERED_FROM:
        return
    line = face.subject.views[one.wall].place.line
    count = max(1, math.ceil((one.end - one.start) * face.scale.per_metre / wide))
    for step in range(count):
        s = one.start + (step + 0.5) / count * (one.end - one.start)
        face.board.placer.take(box_about(face.at(line.point(s)), wide, wide))


def draw_push(face: PlanFace, subject: SharesSubject) -> None:
    """From outside the walls toward them, and on as a line to the place where the push acts."""
    c, s = math.cos(subject.direction), math.sin(subject.direction)
    x, y = face.at(subject.at)
    back = _distance_to_edge(face, (x, y), (-c, -s)) + _OFF_WALLS

    def point(along: float, across: float = 0.0) -> Point:
        return x - along * c - across * s, y - along * s + across * c

    tail, tip = point(back + _ARROW), point(back)
    face.board.stroke(tail, point(back + _HEAD), pen=Pen.CUT)
    face.board.fill((tip, point(back + _HEAD, 3.4), point(back + _HEAD, -3.4)), Tone.INK)
    face.board.stroke(tip, (x, y), pen=Pen.MEASURE)
    lines = (LabelLine(subject.push, Role.CODE), LabelLine(face.board.metrics.writer.write(subject.force, "force")))
    middle = point(back + _ARROW / 2)
    spots = around(middle, *face.board.size(lines))
    face.board.label(lines, spots, f"{subject.name}: {subject.push}, {lines[1].text}", middle)


def _distance_to_edge(face: PlanFace, start: Point, direction: Point) -> float:
    """How far it is from `start` to where the walls end, in points."""
    left, bottom, right, top = face.subject.shape.box
    (x0, y0), (x1, y1) = face.at((left, bottom)), face.at((right, top))
    out = []
    for here, low, high, step in ((start[0], x0, x1, direction[0]), (start[1], y0, y1, direction[1])):
        if abs(step) > 1e-9:
            out.append(max(((high if step > 0 else low) - here) / step, 0.0))
    return min(out)


def draw_centres(face: PlanFace, subject: SharesSubject) -> None:
    """The centre of mass as a crossed circle, the centre of stiffness as a crossed diamond."""
    found = [(subject.mass, "centre of mass", _crossed_circle)]
    if subject.stiffness is not None:
        found.append((subject.stiffness, "centre of stiffness", _crossed_diamond))
    boxes = []
    for place, _, draw in found:
        boxes.append(box_about(face.at(place), 2 * _CENTRE, 2 * _CENTRE))
        draw(face.board, boxes[-1])
    for box in boxes:
        face.board.placer.take(box)
    for (_, says, _), box in zip(found, boxes, strict=True):
        line = (LabelLine(says),)
        spots = around(box.centre, *face.board.size(line), clear=_CENTRE)
        free = face.board.placer.first(spots)
        if free is None:
            face.board.unset.append(f"{subject.name}: {says}")
            continue
        face.board.write(line, free, plate=True)
        face.board.lead(box.nearest(free.centre), free)


def _crossed_circle(board: Board, box: Box) -> None:
    ring = Bow(box.centre, radius=_CENTRE, first=0.0, sweep=2 * math.pi, pen=Pen.EDGE)
    board.fill(bow_points(ring), Tone.PAPER)
    board.bow(ring)
    _cross(board, box)


def _crossed_diamond(board: Board, box: Box) -> None:
    (x, y), r = box.centre, _CENTRE
    corners = ((x - r, y), (x, y - r), (x + r, y), (x, y + r))
    board.fill(corners, Tone.PAPER)
    board.stroke(*corners, pen=Pen.EDGE, closed=True)
    _cross(board, box)


def _cross(board: Board, box: Box) -> None:
    (x, y), (_, low), (right, _), (_, high) = box.centre, *corners_of(box)[:3]
    board.stroke((box.left, y), (right, y), pen=Pen.EDGE)
    board.stroke((x, low), (x, high), pen=Pen.EDGE)
