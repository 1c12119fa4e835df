"""Openings in an elevation with what carries the wall over them."""

from __future__ import annotations

from compliance.drawings.common.primitives import Pen, Point, Tone
from compliance.drawings.elevation.wall_face import Face
from compliance.facts.geometry.openings import Hole
from compliance.model.walls import Lintel


def draw_opening(face: Face, hole: Hole) -> None:
    head = hole.sill + hole.height
    face.board.block(face.clipped(hole.start, hole.end, hole.sill, head), Tone.PAPER, Pen.EDGE)
    lintel = face.subject.parts.wall.openings[hole.mark].lintel
    if lintel is None or lintel.material == "bond-beam":
        return
    if lintel.material == "arch":
        _arch(face, hole)
        return
    _lintel(face, hole, lintel)


def _lintel(face: Face, hole: Hole, lintel: Lintel) -> None:
    """To its size where that is given; dashed at the head of the opening where its depth is not."""
    head, bearing = hole.sill + hole.height, lintel.bearing.si if lintel.bearing else 0.0
    start, end = max(hole.start - bearing, face.low), min(hole.end + bearing, face.high)
    if lintel.depth is None:
        face.board.stroke(face.at(start, head), face.at(end, head), pen=Pen.HIDDEN)
        return
    tone = Tone.WOOD if lintel.material == "wood" else Tone.CONCRETE
    face.board.block(face.box(start, end, head, head + lintel.depth.si), tone, Pen.EDGE)


def _arch(face: Face, hole: Hole) -> None:
    """An arch whose rise the project does not describe: a dashed sign of it over the head, no shape to build by."""
    head = hole.sill + hole.height
    rise = min(hole.width / 6, max(face.subject.parts.levels.top - head, 0.0) * 0.8)
    points: list[Point] = [
        face.at(min(max(hole.start + share * hole.width, face.low), face.high), head + 4 * rise * share * (1 - share))
        for share in (index / 16 for index in range(17))
    ]
    face.board.stroke(*points, pen=Pen.HIDDEN)
