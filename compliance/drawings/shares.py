"""The plan with what each solid length takes of a push along the walls: outlines light, bars as wide as the share."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from compliance.drawings.board import Board, Hand, LabelLine, bow_points, corners_of
from compliance.drawings.draft import Draft, elevation_key
from compliance.drawings.lettering import Role
from compliance.drawings.placing import around
from compliance.drawings.plan_face import PlanFace, PlanSubject
from compliance.drawings.plan_marks import beside, draw_north
from compliance.drawings.primitives import Bow, Box, Drawing, Pen, Point, Tone, box_about
from compliance.drawings.regions import left_of, length_of_wall, shifted
from compliance.drawings.scales import Scale, largest
from compliance.record import record

NOT_HELD = "not held"
LEAST_SHOWN = 0.001
"""A smaller share has no label; the figures under the drawing tell it."""
_ASIDE, _BELOW, _ABOVE = 76.0, 74.0, 48.0
"""What the arrow and the labels take on each side of the plan, in points."""
_WIDEST, _NARROWEST = 9.0, 0.5
_COVERED_FROM = 2.0
_LARGEST = 24.0
_ARROW, _OFF_WALLS, _HEAD = 34.0, 9.0, 8.0
_CENTRE = 3.6


@record
class Taken:
    """What a solid length takes: from `start` to `end` along its wall [m], as a share of the push and as a force [N].
    Both infinite where the walls cannot hold the push."""

    wall: str
    start: float
    end: float
    share: float
    force: float


@record
class SharesSubject:
    """A push of `force` [N] along `direction` [rad from the horizontal of the page] that acts `at` a place in the plan.
    `stiffness` is None where the walls have no centre of stiffness."""

    key: str
    name: str
    plan: PlanSubject
    push: str
    force: float
    direction: float
    at: Point
    mass: Point
    stiffness: Point | None
    taken: tuple[Taken, ...]
    notes: tuple[str, ...] = ()

    @property
    def greatest(self) -> float:
        """The greatest share that is held."""
        return max((one.share for one in self.taken if math.isfinite(one.share)), default=0.0)


def shares_plan(subject: SharesSubject, hand: Hand, width: float, tallest: float) -> Draft:
    """The drawing to the largest usual scale at which it is no taller than `tallest` points."""
    left, bottom, right, top = subject.plan.shape.box

    def needed(scale: Scale) -> float:
        return (top - bottom) * scale.per_metre + _ABOVE + _BELOW

    def fits(scale: Scale) -> bool:
        return (right - left) * scale.per_metre + 2 * _ASIDE <= width and needed(scale) <= tallest

    scale = largest(hand.writer.system, fits, _LARGEST)

    def drawn(height: float) -> Drawing:
        board = Board(Box(0.0, 0.0, width, height), hand)
        aside = (width - (right - left) * scale.per_metre) / 2
        face = PlanFace(board, subject.plan, scale, aside, _BELOW + max(height - needed(scale), 0.0) / 2)
        draw_north(face)
        _body(face, subject)
        _arrow(face, subject)
        _centres(face, subject)
        _labels(face, subject)
        return Drawing(
            subject.key, subject.name, scale, width, height, board.finished(), subject.notes, tuple(board.unset)
        )

    return Draft(subject.key, subject.name, needed(scale), drawn, subject.notes)


def share_text(share: float) -> str:
    """In percent with one decimal; in words where the walls cannot hold it, and where it would round to nothing."""
    if not math.isfinite(share):
        return NOT_HELD
    return f"{share * 100:.1f} %" if share >= LEAST_SHOWN or share <= 0 else f"under {LEAST_SHOWN * 100:g} %"


def bar_width(share: float, greatest: float) -> float:
    """How wide the bar of a share is, in points: in proportion to the greatest one, a hairline at least."""
    return max(_WIDEST * share / greatest, _NARROWEST) if greatest > 0 else _NARROWEST


def _body(face: PlanFace, subject: SharesSubject) -> None:
    for edge in subject.plan.shape.edges:
        face.ink(edge, Pen.FINE)
    greatest = subject.greatest
    for one in subject.taken:
        line = subject.plan.views[one.wall].place.line
        held = math.isfinite(one.share)
        if held and one.share <= 0:
            continue
        wide = bar_width(one.share, greatest) if held else _WIDEST
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


def _arrow(face: PlanFace, subject: SharesSubject) -> None:
    """From outside the walls toward them, and on as a line to the place where the push acts."""
    c, s = math.cos(subject.direction), math.sin(subject.direction)
    x, y = face.at(subject.at)
    back = _way_out(face, (x, y), (-c, -s)) + _OFF_WALLS

    def point(along: float, across: float = 0.0) -> Point:
        return x - along * c - across * s, y - along * s + across * c

    tail, tip = point(back + _ARROW), point(back)
    face.board.stroke(tail, point(back + _HEAD), pen=Pen.CUT)
    face.board.fill((tip, point(back + _HEAD, 3.4), point(back + _HEAD, -3.4)), Tone.INK)
    face.board.stroke(tip, (x, y), pen=Pen.MEASURE)
    lines = (LabelLine(subject.push, Role.CODE), LabelLine(face.board.hand.writer.write(subject.force, "force")))
    middle = point(back + _ARROW / 2)
    spots = around(middle, *face.board.size(lines))
    face.board.label(lines, spots, f"{subject.name}: {subject.push}, {lines[1].text}", middle)


def _way_out(face: PlanFace, start: Point, way: Point) -> float:
    """How far it is from `start` to where the walls end, in points."""
    left, bottom, right, top = face.subject.shape.box
    (x0, y0), (x1, y1) = face.at((left, bottom)), face.at((right, top))
    out = []
    for here, low, high, step in ((start[0], x0, x1, way[0]), (start[1], y0, y1, way[1])):
        if abs(step) > 1e-9:
            out.append(max(((high if step > 0 else low) - here) / step, 0.0))
    return min(out)


def _centres(face: PlanFace, subject: SharesSubject) -> None:
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
    ring = Bow(box.centre, _CENTRE, 0.0, 2 * math.pi, Pen.EDGE)
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


def _labels(face: PlanFace, subject: SharesSubject) -> None:
    """Wall and share, below it the force; the greatest shares first, so that they stand nearest."""
    writer = face.board.hand.writer
    for one in sorted(subject.taken, key=lambda taken: -taken.share):
        if one.share < LEAST_SHOWN:
            continue
        lines = [LabelLine(f"{one.wall}  {share_text(one.share)}", Role.CODE, link=elevation_key(one.wall))]
        lines += [LabelLine(writer.write(one.force, "force"))] if math.isfinite(one.share) else []
        free = face.board.placer.first(_spots(face, one, *face.board.size(lines)))
        if free is not None:
            face.board.write(lines, free, plate=True)
        elif not _led(face, one, lines):
            face.board.unset.append(", ".join(entry.text for entry in lines))


def _led(face: PlanFace, one: Taken, lines: Sequence[LabelLine]) -> bool:
    """The label farther off, with a line to the edge of its bar."""
    line, wide = face.subject.views[one.wall].place.line, face.board.size(lines)
    s = (one.start + one.end) / 2
    for side in (1, -1):
        at = shifted(face.at(line.point(s)), *left_of(line, s), side * (0.75 * _WIDEST + 0.5))
        free = face.board.placer.first(around(at, *wide, _WIDEST), at)
        if free is not None:
            face.board.write(lines, free, plate=True)
            face.board.lead(at, free)
            return True
    return False


def _spots(face: PlanFace, one: Taken, width: float, height: float) -> Iterator[Box]:
    """Beside the middle of the length, then beside other places of it, on either side."""
    view = face.subject.views[one.wall]
    half = max(view.place.thickness / 2 * face.scale.per_metre, _WIDEST / 2)
    outside = face.subject.outside.get(one.wall)
    sides = (-outside, outside) if outside is not None else (1, -1)
    for share in (0.5, 0.3, 0.7, 0.1, 0.9):
        s = one.start + share * (one.end - one.start)
        for side in sides:
            yield beside(face, view.place.line, s, side, half + 2.5, width, height)
