"""The dimensions of a plan: openings and piers along each wall, curves by radius and length, the whole from face to
face."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from compliance.drawings.common.board import LabelLine
from compliance.drawings.common.dimension_chains import Span, chain
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Box, Dimension, Lettering, Point, box_about
from compliance.drawings.common.regions import left_of, shifted
from compliance.drawings.plan.plan_face import PlanFace
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.lines import Circular, Straight
from compliance.units import Writer

LEFT, BELOW, RIGHT, ABOVE = 74.0, 70.0, 44.0, 46.0
"""What dimensions and coordinates take on each side of the plan, in points."""
_OFF_FACE = 17.0
_INNER_OFF = 11.0
_OVERALL = 56.0
_ALONG = math.sin(math.radians(0.5))
_LEVELS = 5
_STEP = 0.05
"""Between the points at which a line is looked at for openings, in m."""
_GAP = 1.4


def draw_chains(face: PlanFace, in_detail: bool) -> None:
    """Walls with an outside first: their chains have their place, the others look for one. Not `in_detail` each wall
    is measured as a whole."""
    views = face.subject.views.values()
    for view in sorted(views, key=lambda one: face.subject.outside.get(one.mark) is None):
        if isinstance(view.place.line, Straight):
            _along(face, view, in_detail)
        else:
            _curve(face, view, view.place.line)


def _stations(view: WallView, in_detail: bool) -> tuple[list[float], list[str]]:
    """Ends of the wall and edges of its openings, and what lies between each two."""
    length = view.place.line.length
    stations, subjects = [0.0], []
    for pier in view.opened.piers:
        if pier.start > stations[-1]:
            subjects.append(f"{view.mark}, width of {pier.between[0]}")
            stations.append(pier.start)
        if pier.end > stations[-1]:
            subjects.append(f"{view.mark}, pier {pier.mark}")
            stations.append(pier.end)
    if not (in_detail and view.opened.piers):
        return [0.0, length], [f"{view.mark}, whole length"]
    return stations, subjects


def _along(face: PlanFace, view: WallView, in_detail: bool) -> None:
    """A chain beside a straight wall: outside where the plan tells which side that is, else where less is drawn."""
    line, half = view.place.line, view.place.thickness / 2 * face.scale.per_metre
    (nx, ny), (dx, dy) = left_of(line, 0.0), line.direction(0.0)
    outside = face.subject.outside.get(view.mark)
    side = outside if outside is not None else _emptier(face, view, half + _INNER_OFF)
    off = side * (half + (_OFF_FACE if outside is not None else _INNER_OFF))
    stations, subjects = _stations(view, in_detail)
    foot = side * (half + 2.0)
    on_line = [face.at(line.point(s)) for s in stations]
    places = [shifted(point, nx, ny, off) for point in on_line]
    feet = [shifted(point, nx, ny, foot) for point in on_line]
    if abs(dy) < _ALONG or abs(dx) < _ALONG:
        _straight_chain(
            face,
            stations=stations,
            subjects=subjects,
            places=places,
            feet=feet,
            upright=abs(dx) < _ALONG,
            away=side * (nx + ny),
        )
        return
    for index, subject in enumerate(subjects):
        value = stations[index + 1] - stations[index]
        span = (places[index], places[index + 1])
        slanted(
            face,
            ends=span,
            feet=(feet[index], feet[index + 1]),
            out=(side * nx, side * ny),
            value=value,
            subject=subject,
        )


def _emptier(face: PlanFace, view: WallView, off: float) -> int:
    """The side of the wall on which a line at that distance runs through fewer openings, then meets less that is drawn:
    1 left, -1 right."""
    line = view.place.line
    (nx, ny), start, end = left_of(line, 0.0), face.at(line.point(0.0)), face.at(line.point(line.length))
    met = {
        side: (
            _openings_crossed(face, view, side * off / face.scale.per_metre),
            face.board.placer.met(shifted(start, nx, ny, side * off), shifted(end, nx, ny, side * off)),
        )
        for side in (-1, 1)
    }
    return 1 if met[1] < met[-1] else -1


def _openings_crossed(face: PlanFace, view: WallView, off: float) -> int:
    """How many openings a line runs through that is shifted `off` to the left of a wall, in m."""
    line = view.place.line
    (nx, ny), count = left_of(line, 0.0), max(2, math.ceil(line.length / _STEP))
    points = [shifted(line.point(line.length * index / count), nx, ny, off) for index in range(count + 1)]
    return sum(any(region.holds(point) for point in points) for region in face.subject.shape.cuts.values())


def _straight_chain(
    face: PlanFace, stations: Sequence[float], subjects: Sequence[str], places: Sequence[Point], feet: Sequence[Point],
    upright: bool, away: float,
) -> None:  # fmt: skip
    """A chain along the page. Texts of upright chains stand to the left of their line, so that they read from the
    right."""
    along = 1 if upright else 0
    spans = []
    for index, subject in enumerate(subjects):
        low, high = sorted((places[index][along], places[index + 1][along]))
        spans.append(Span(low, high, stations[index + 1] - stations[index], subject))
    frame = face.board.frame
    least, most = (frame.bottom, frame.top) if upright else (frame.left, frame.right)
    side = 1 if away > 0 else -1
    chain(
        face.board,
        spans=spans,
        at=places[0][1 - along],
        least=least,
        most=most,
        upright=upright,
        away=side,
        feet=[feet[0][1 - along]] * len(spans),
        plate=True,
    )


def slanted(
    face: PlanFace, ends: tuple[Point, Point], feet: tuple[Point, Point], out: Point, value: float, subject: str
) -> None:
    """A dimension along a slanted line; its text stands level beside the line."""
    board, text = face.board, face.board.metrics.writer.write(value, "length")
    board.items.append(Dimension(*ends, value, subject, text, feet))
    board.placer.avoid(*ends)
    for point, base in zip(ends, feet, strict=True):
        board.placer.avoid(base, point)
    middle = ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
    width, height = board.metrics.letters(text, Role.DIMENSION), Role.DIMENSION.height
    spot = board.placer.first(_off_line(middle, out, width, height), middle)
    if spot is None:
        board.unset.append(f"{subject}: {text}")
        return
    board.items.append(Lettering(text, spot, Role.DIMENSION, plate=True))
    board.lead(middle, spot)


def _off_line(middle: Point, out: Point, width: float, height: float) -> Iterator[Box]:
    """Boxes that clear the line on the side `out`, then on the other, ever farther off."""
    clear = width / 2 * abs(out[0]) + height / 2 * abs(out[1]) + _GAP
    for level in range(_LEVELS):
        for side in (1, -1):
            off = side * (clear + level * (height + 1.0))
            yield box_about((middle[0] + off * out[0], middle[1] + off * out[1]), width, height)


def _curve(face: PlanFace, view: WallView, line: Circular) -> None:
    """Radius and length of a curve, both of its centerline, and where its openings are, led from its middle."""
    writer = face.board.metrics.writer
    radius, length = writer.write(line.radius, "length"), writer.write(line.length, "length")
    openings = list(_on_curve(view, writer))
    lines = tuple(LabelLine(one, Role.DIMENSION) for one in (f"R {radius}", f"length {length}", *openings))
    outside = face.subject.outside.get(view.mark)
    side = outside if outside is not None else -1
    clear = view.place.thickness / 2 * face.scale.per_metre
    spots = []
    wide, high = face.board.size(lines)
    for share in (0.5, 0.3, 0.7, 0.15, 0.85):
        s = share * line.length
        point = face.at(shifted(line.point(s), *left_of(line, s), side * view.place.thickness / 2))
        spots += list(around(point, wide, high))[:24]
    middle = line.length / 2
    at = face.at(shifted(line.point(middle), *left_of(line, middle), side * view.place.thickness / 2))
    spots += list(around(face.at(line.point(middle)), wide, high, clear))
    named = "; ".join((f"{view.mark}: radius {radius} and length {length} of the centerline", *openings))
    face.board.label(lines, spots, named, at)


def _on_curve(view: WallView, writer: Writer) -> Iterator[str]:
    """Of each opening how far along the centerline it is from the wall that meets this one at its start."""
    at_start = [one.by for one in view.supports if abs(one.s) <= 1e-6]
    measured = at_start[0] if at_start else f"the start of {view.mark}"
    for hole in view.opened.holes:
        along, wide = writer.write(hole.start, "length"), writer.write(hole.end - hole.start, "length")
        yield f"{hole.mark} {along} from {measured}, {wide} wide"


def draw_overall(face: PlanFace) -> None:
    """The whole building from face to face, below and to the left."""
    x0, y0, x1, y1 = face.subject.shape.box
    (left, bottom), (right, top) = face.at((x0, y0)), face.at((x1, y1))
    frame = face.board.frame
    for low, high, value, at, foot, upright, subject in (
        (left, right, x1 - x0, bottom - _OVERALL, bottom - 4.0, False, "plan, the whole across"),
        (bottom, top, y1 - y0, left - _OVERALL, left - 4.0, True, "plan, the whole up the page"),
    ):
        least, most = (frame.bottom, frame.top) if upright else (frame.left, frame.right)
        span = Span(low, high, value, subject)
        chain(
            face.board,
            spans=[span],
            at=at,
            least=least,
            most=most,
            upright=upright,
            away=-1 if upright else 1,
            feet=[foot],
        )
