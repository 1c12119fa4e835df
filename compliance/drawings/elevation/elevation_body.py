"""What stands in an elevation: footing, stem wall, earth, what meets it, openings, lintels, lifts, bond beam."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.drawings.common.board import corners_of
from compliance.drawings.common.primitives import Pen, Tone
from compliance.drawings.elevation.elevation_openings import draw_opening
from compliance.drawings.elevation.wall_face import Face
from compliance.facts.geometry.wall_plan import Support

_CLOSEST_LIFTS = 3.0
_PAST = 20.0
"""How far the ground is drawn past the ends of the wall, in points."""
_BREAK = 4.0


def draw_body(face: Face) -> None:
    _earth(face)
    _lifts(face)
    for support in face.supports:
        _band(face, support)
    for hole in face.subject.view.opened.holes:
        if face.shows(hole.start) or face.shows(hole.end):
            draw_opening(face, hole)
    _stem_and_footing(face)
    _beam(face)
    _gable(face)
    _ground(face)
    _centre_lines(face)
    for end in (face.low, face.high):
        if 1e-6 < end < face.subject.length - 1e-6:
            _break(face, end)


def _earth(face: Face) -> None:
    face.board.block(face.box(face.low, face.high, 0.0, face.subject.parts.levels.top), Tone.EARTH, Pen.CUT)


def lift_heights(lift: float | None, top: float) -> list[float]:
    """Heights of the joints between lifts in m, the foot and the top left out."""
    if not lift:
        return []
    return [index * lift for index in range(1, int(top / lift) + 1) if index * lift < top - 1e-6]


def lifts_too_close(face: Face) -> bool:
    lift = face.subject.parts.wall.lift_height
    return lift is not None and lift.si * face.scale.per_metre < _CLOSEST_LIFTS


def _lifts(face: Face) -> None:
    lift, levels = face.subject.parts.wall.lift_height, face.subject.parts.levels
    if lift is None or lifts_too_close(face):
        return
    for height in lift_heights(lift.si, levels.top):
        for start, end in solid_at(face, height):
            face.board.stroke(face.at(start, height), face.at(end, height), pen=Pen.GRID, avoid=False)


def solid_at(face: Face, height: float) -> Iterator[tuple[float, float]]:
    """Lengths of the wall that are not open at that height."""
    s = face.low
    for hole in face.subject.view.opened.holes:
        if hole.sill < height < hole.sill + hole.height and hole.end > s:
            if hole.start > s:
                yield s, min(hole.start, face.high)
            s = hole.end
        if s >= face.high:
            return
    yield s, face.high


def _band(face: Face, support: Support) -> None:
    """Where another wall or a buttress meets this one: shaded where it counts, an empty dashed outline where not."""
    top = min(face.subject.height_of(support.by), face.subject.parts.levels.top)
    box = face.clipped(support.s - support.half_width, support.s + support.half_width, 0.0, top)
    if support.why_not:
        face.board.stroke(*corners_of(box), pen=Pen.HIDDEN, closed=True)
    else:
        face.board.block(box, Tone.BAND, Pen.FINE)


def _stem_and_footing(face: Face) -> None:
    parts, levels, board = face.subject.parts, face.subject.parts.levels, face.board
    foot = levels.footing_top if levels.footing_top is not None else levels.footing_bottom
    if parts.stem:
        grade = levels.grade if levels.grade is not None else levels.lowest
        if grade < 0:
            board.block(face.box(face.low, face.high, grade, 0.0), Tone.MASONRY, Pen.EDGE)
        if foot is not None and foot < min(grade, 0.0):
            _below(face, foot, min(grade, 0.0))
    if levels.footing_bottom is not None and levels.footing_top is not None:
        _below(face, levels.footing_bottom, levels.footing_top)
    elif levels.footing_bottom is not None:
        _dashed(face, levels.footing_bottom)


def _below(face: Face, low: float, high: float) -> None:
    face.board.stroke(*corners_of(face.box(face.low, face.high, low, high)), pen=Pen.HIDDEN, closed=True)


def _dashed(face: Face, height: float) -> None:
    face.board.stroke(face.at(face.low, height), face.at(face.high, height), pen=Pen.HIDDEN)


def _beam(face: Face) -> None:
    parts, levels = face.subject.parts, face.subject.parts.levels
    if parts.beam is None:
        return
    if levels.beam_top is None:
        y = face.y(levels.top) + 3.0
        face.board.stroke((face.left, y), (face.right_edge, y), pen=Pen.HIDDEN)
        return
    tone = Tone.WOOD if parts.beam.material == "wood" else Tone.CONCRETE
    face.board.block(face.box(face.low, face.high, levels.top, levels.beam_top), tone, Pen.EDGE)


def _gable(face: Face) -> None:
    """The triangle of earth over the eaves, as far as the drawn part of the wall goes."""
    levels, length = face.subject.parts.levels, face.subject.length
    if levels.ridge is None or levels.ridge <= levels.eaves:
        return
    low, high = max(face.low, 0.0), min(face.high, length)
    stations = [low, *((length / 2,) if low < length / 2 < high else ()), high]
    rise = levels.ridge - levels.eaves
    edge = [face.at(s, levels.eaves + rise * (1 - abs(2 * s / length - 1))) for s in stations]
    corners = (face.at(low, levels.eaves), *edge, face.at(high, levels.eaves))
    face.board.fill(corners, Tone.EARTH)
    face.board.stroke(*corners, pen=Pen.CUT, closed=True)


def _ground(face: Face) -> None:
    """What the wall is seen to stand in is a heavy line, ground or floor; the other level is a dashed one."""
    levels, board = face.subject.parts.levels, face.board
    left, right = face.left - _PAST, face.right_edge + _PAST
    indoors = face.subject.parts.wall.use == "interior"
    for height, heavy in ((levels.grade, not indoors), (levels.floor, indoors)):
        if height is not None:
            y = face.y(height)
            board.stroke((left if heavy else face.left, y), (right, y), pen=Pen.CUT if heavy else Pen.HIDDEN)


def _centre_lines(face: Face) -> None:
    """The ends of the centre line, from which lengths are measured, where the wall reaches on to a corner."""
    levels = face.subject.parts.levels
    for s in (0.0, face.subject.length):
        if face.low < s - 1e-6 and s + 1e-6 < face.high:
            low, high = face.y(levels.lowest) - 4.0, face.y(levels.highest) + 4.0
            face.board.stroke((face.x(s), low), (face.x(s), high), pen=Pen.BREAK)


def _break(face: Face, s: float) -> None:
    """The wall goes on in another part of the drawing."""
    x, levels = face.x(s), face.subject.parts.levels
    low, high = face.y(levels.lowest) - 6.0, face.y(levels.highest) + 6.0
    middle = (low + high) / 2
    face.board.stroke(
        (x, low), (x, middle - _BREAK), (x - _BREAK, middle - _BREAK / 2), (x + _BREAK, middle + _BREAK / 2),
        (x, middle + _BREAK), (x, high), pen=Pen.EDGE,
    )  # fmt: skip
