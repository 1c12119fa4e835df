"""What stands in a section: footing, drain, stem wall, capillary break, earth, finishes, bond beam, anchors, roof."""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.drawings.common.board import corners_of
from compliance.drawings.common.primitives import Bow, Pen, Tone
from compliance.drawings.section.section_face import SectionFace, faces_at, half_widths, roof_drawn
from compliance.model.walls import Finish

_UNSIZED = 0.03
"""Drawn for a layer whose thickness is not given, dashed, in m."""
DRAIN = 0.05
"""Radius of the sign for a drain, in m."""
UNSIZED_STEM = 18.0
"""How much of a stem wall is shown, dashed, whose height is not given, in points."""
ROOF_RUN = 46.0
ROOF_RISE = 240.0
"""How far the line of a roof runs on beyond the wall, and how far it may rise over its seat, in points."""
"""How far the roof is drawn past the inner face, in points."""
_LEAST_EAVE = 16.0
ROD = 0.22
"""Where the sign for bars or rods stands: this share of the thickness inside of the middle."""
_FOOTINGS = {
    "concrete": Tone.CONCRETE, "rubble-trench": Tone.RUBBLE, "rubble-trench-grade-beam": Tone.RUBBLE,
    "stone": Tone.MASONRY,
}  # fmt: skip


def draw_section_body(face: SectionFace) -> None:
    _footing(face)
    _stem(face)
    _earth(face)
    outer, inner = half_widths(face.parts)
    for layers, side in ((face.parts.wall.outside, -1), (face.parts.wall.inside, 1)):
        _finishes(face, layers or [], side)
    _rods(face)
    _beam(face)
    _gable(face)
    _ground(face, outer, inner)
    _roof(face)


def _earth(face: SectionFace) -> None:
    top = face.parts.levels.top
    (o0, i0), (o1, i1) = faces_at(face.parts, 0.0), faces_at(face.parts, top)
    corners = (face.at(o0, 0.0), face.at(i0, 0.0), face.at(i1, top), face.at(o1, top))
    face.board.fill(corners, Tone.EARTH)
    face.board.stroke(*corners, pen=Pen.CUT, closed=True)


def _finishes(face: SectionFace, layers: Sequence[Finish], side: int) -> None:
    """Layers from the earth outward; one without a thickness is a dashed line."""
    top, off = face.parts.levels.top, 0.0
    ends = [faces_at(face.parts, height)[0 if side < 0 else 1] for height in (0.0, top)]
    for layer in layers:
        thick = layer.thickness.si if layer.thickness else _UNSIZED
        corners = [
            face.at(ends[0] + side * off, 0.0), face.at(ends[0] + side * (off + thick), 0.0),
            face.at(ends[1] + side * (off + thick), top), face.at(ends[1] + side * off, top),
        ]  # fmt: skip
        if layer.thickness:
            face.board.fill(corners, Tone.FINISH)
            face.board.stroke(*corners, pen=Pen.FINE, closed=True)
        else:
            face.board.stroke(corners[1], corners[2], pen=Pen.HIDDEN)
        off += thick


def _stem(face: SectionFace) -> None:
    parts, levels = face.parts, face.parts.levels
    if parts.stem is None:
        return
    foot = next((one for one in (levels.footing_top, levels.footing_bottom, levels.grade) if one is not None), None)
    if foot is None or foot >= 0:
        outer, inner = (face.x(one) for one in faces_at(parts, 0.0))
        low = face.y(0.0) - UNSIZED_STEM
        face.board.stroke((outer, face.y(0.0)), (outer, low), pen=Pen.HIDDEN)
        face.board.stroke((inner, face.y(0.0)), (inner, low), pen=Pen.HIDDEN)
        return
    if parts.stem.thickness:
        half = parts.stem.thickness.si / 2
        tone = Tone.CONCRETE if parts.stem.material == "concrete" else Tone.MASONRY
        face.board.block(face.box(-half, half, foot, 0.0), tone, Pen.CUT)
    else:
        outer, inner = faces_at(parts, 0.0)
        face.board.stroke(*corners_of(face.box(outer, inner, foot, 0.0)), pen=Pen.HIDDEN, closed=True)
        half = (inner - outer) / 2
    if parts.stem.moisture_break not in (None, "none"):
        y = face.y(0.0)
        for off in (0.0, 1.1):
            face.board.stroke((face.x(-half), y - off), (face.x(half), y - off), pen=Pen.CUT)
    anchors = parts.stem.anchors
    if anchors and anchors.embedment:
        face.board.stroke(
            face.at(0.0, max(foot, -anchors.embedment.si)), face.at(0.0, anchors.embedment.si), pen=Pen.EDGE
        )


def _footing(face: SectionFace) -> None:
    footing, levels = face.parts.footing, face.parts.levels
    if footing is None or footing.width is None or levels.footing_bottom is None:
        return
    half, low = footing.width.si / 2, levels.footing_bottom
    if levels.footing_top is None:
        face.board.stroke(face.at(-half, low), face.at(half, low), pen=Pen.HIDDEN)
    else:
        box = face.box(-half, half, low, levels.footing_top)
        tone = _FOOTINGS.get(footing.kind)
        if tone:
            face.board.block(box, tone, Pen.CUT)
        else:
            face.board.stroke(*corners_of(box), pen=Pen.CUT, closed=True)
    if footing.drain:
        centre = face.at(-half - 1.6 * DRAIN, low + DRAIN)
        face.board.bow(Bow(centre, radius=DRAIN * face.scale.per_metre, first=0.0, sweep=2 * math.pi, pen=Pen.HIDDEN))


def _beam(face: SectionFace) -> None:
    parts, levels = face.parts, face.parts.levels
    if parts.beam is None:
        return
    outer, inner = faces_at(parts, levels.top)
    middle = (outer + inner) / 2
    half = parts.beam.width.si / 2 if parts.beam.width else (inner - outer) / 2
    high = face.beam_top
    box = face.box(middle - half, middle + half, levels.top, high)
    if parts.beam.width and levels.beam_top is not None:
        face.board.block(box, Tone.WOOD if parts.beam.material == "wood" else Tone.CONCRETE, Pen.CUT)
    else:
        face.board.stroke(*corners_of(box), pen=Pen.HIDDEN, closed=True)
    anchors = parts.beam.anchors
    if anchors and anchors.embedment:
        down = levels.top - anchors.embedment.si
        face.board.stroke(face.at(middle, high), face.at(middle, down), pen=Pen.CUT)
        for height in (high, down):
            x, y = face.at(middle, height)
            face.board.stroke((x - 3.0, y), (x + 3.0, y), pen=Pen.CUT)


def _rods(face: SectionFace) -> None:
    """A dashed sign of the bars or rods that are described: where they stand is not."""
    if face.parts.wall.reinforced is False or not face.parts.wall.reinforcement:
        return
    top = face.parts.levels.top
    face.board.stroke(face.at(rod_at(face, 0.0), 0.0), face.at(rod_at(face, top), top), pen=Pen.HIDDEN)


def rod_at(face: SectionFace, height: float) -> float:
    """How far from the centerline of the foot the sign stands at a height."""
    outer, inner = faces_at(face.parts, height)
    return (outer + inner) / 2 + ROD * (inner - outer)


def _gable(face: SectionFace) -> None:
    """The earth over the eaves where the gable is highest."""
    levels = face.parts.levels
    if levels.ridge is None or levels.ridge <= levels.eaves:
        return
    outer, inner = faces_at(face.parts, levels.top)
    face.board.block(face.box(outer, inner, max(face.beam_top, levels.eaves), levels.ridge), Tone.EARTH, Pen.CUT)


def _ground(face: SectionFace, outer: float, inner: float) -> None:
    """The ground outside with its hatching below and the finished floor inside; beside a wall between rooms the floor
    on both sides, and the level of the ground as a dashed line."""
    levels, between = face.parts.levels, face.parts.wall.use == "interior"
    stem = face.parts.stem
    half = stem.thickness.si / 2 if stem and stem.thickness else faces_at(face.parts, 0.0)[1]
    left, right = face.x(-outer) - 44.0, face.x(inner) + 44.0
    if levels.grade is not None:
        end, y = face.x(-half), face.y(levels.grade)
        face.board.stroke((left, y), (end, y), pen=Pen.HIDDEN if between else Pen.CUT)
        for step in range(0 if between else int((end - left) // 7)):
            x = left + 4.0 + 7.0 * step
            face.board.stroke((x, y), (x - 3.5, y - 4.0), pen=Pen.FINE, avoid=False)
    if levels.floor is not None:
        y = face.y(levels.floor)
        face.board.stroke((face.x(half), y), (right, y), pen=Pen.EDGE)
        if between:
            face.board.stroke((left, y), (face.x(-half), y), pen=Pen.EDGE)


def roof_ends(face: SectionFace) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """The two ends of the roof line on the page: eave and inner end; None where no roof bears on the wall. It rests on
    the outer edge of what it bears on, and is cut where it would run off the drawing."""
    found, levels = roof_drawn(face.parts), face.parts.levels
    if found is None:
        return None
    roof = found[1]
    outer, inner = faces_at(face.parts, levels.top)
    half = (face.parts.beam.width.si if face.parts.beam and face.parts.beam.width else inner - outer) / 2
    seat_x, seat = face.at((outer + inner) / 2 - half, levels.eaves)
    rise = math.tan(roof.slope.si) if roof.slope else 0.0
    left = face.x(outer - (roof.overhang.si if roof.overhang else 0.0))
    right = face.x(inner) + ROOF_RUN
    if (right - seat_x) * rise > ROOF_RISE:
        right = seat_x + ROOF_RISE / rise
    eave = seat + 2.0 + (left - seat_x) * rise
    least = face.board.frame.bottom + _LEAST_EAVE
    if eave < least < seat:
        left, eave = seat_x - (seat + 2.0 - least) / rise, least
    return (left, eave), (right, seat + 2.0 + (right - seat_x) * rise)


def _roof(face: SectionFace) -> None:
    """The line of the roof: where it bears, how it falls, how far it reaches. Its build is not drawn."""
    ends = roof_ends(face)
    if ends is None:
        return
    face.board.stroke(*ends, pen=Pen.EDGE)
    (x0, y0), (x1, y1) = ends
    face.board.stroke((x0, y0 + 4.0), (x1, y1 + 4.0), pen=Pen.HIDDEN)
