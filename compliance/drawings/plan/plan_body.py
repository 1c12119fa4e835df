"""What stands in a plan: the raster of coordinates, walls with clean joins, openings, centre lines."""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.drawings.common.lettering import Role
from compliance.drawings.common.primitives import Box, Lettering, Pen, Tone
from compliance.drawings.common.regions import Region, left_of, shifted
from compliance.drawings.plan.plan_face import PlanFace
from compliance.model.lines import Line, Straight

_CLOSEST = 46.0
_PAST, _SHORT = 28.0, 10.0
_GLAZING = 0.06
"""Half the distance between the two lines of a window, as a share of the wall's thickness."""


def draw_plan_body(face: PlanFace) -> None:
    shape = face.subject.shape
    for region in shape.solid:
        face.board.fill(face.points(region.points()), Tone.EARTH)
    for (wall, opening), region in shape.cuts.items():
        face.board.fill(face.points(region.points()), Tone.PAPER)
        _opening(face, wall, opening, region)
    for edge in shape.edges:
        face.ink(edge, Pen.CUT)
    for view in face.subject.views.values():
        face.ink(view.place.line, Pen.BREAK)


def _opening(face: PlanFace, wall: str, opening: str, region: Region) -> None:
    """The lines of the sill at both faces, and between them those of a window."""
    kind = face.subject.walls[wall].openings[opening].kind
    pen = Pen.HIDDEN if kind in ("arch", "vent") else Pen.FINE
    for side in _faces(region):
        face.ink(side, pen)
    if kind == "window":
        view = face.subject.views[wall]
        hole = next(one for one in view.opened.holes if one.mark == opening)
        for sign in (1, -1):
            off = sign * _GLAZING * view.place.thickness
            points = [
                shifted(view.place.line.point(s), *left_of(view.place.line, s), off)
                for s in (hole.start + share * (hole.end - hole.start) / 12 for share in range(13))
            ]
            ends = (points[0], points[-1]) if isinstance(view.place.line, Straight) else points
            face.board.stroke(*face.points(ends), pen=Pen.FINE)


def _faces(region: Region) -> tuple[Line, ...]:
    """The two long sides of a length of wall, those on its faces."""
    sides = region.sides
    return (sides[0], sides[2]) if len(sides) == 4 else sides[:1]


def draw_raster(face: PlanFace) -> None:
    """Light lines at round coordinates, their values above and to the left, beyond the chains of dimensions."""
    step, unit, symbol = _step(face)
    x0, y0, x1, y1 = face.subject.shape.box
    for index in _rounds(x0, x1, step):
        (x, low), (_, high) = face.at((index * step, y0)), face.at((index * step, y1))
        face.board.stroke((x, low - _SHORT), (x, high + _PAST), pen=Pen.RASTER, avoid=False)
        text, wide, tall = _coordinate(face, index * step / unit, symbol)
        ends = (high + _PAST + 1, high + _SHORT + 1, low - _SHORT - 1 - tall)
        _written(face, text, [Box(x - wide / 2, y, x + wide / 2, y + tall) for y in ends])
    for index in _rounds(y0, y1, step):
        (left, y), (right, _) = face.at((x0, index * step)), face.at((x1, index * step))
        face.board.stroke((left - _PAST, y), (right + _SHORT, y), pen=Pen.RASTER, avoid=False)
        text, wide, tall = _coordinate(face, index * step / unit, symbol)
        starts = (left - _PAST - 1 - wide, right + _SHORT + 2, right + _PAST)
        _written(face, text, [Box(x, y - tall / 2, x + wide, y + tall / 2) for x in starts])


def _rounds(low: float, high: float, step: float) -> range:
    return range(math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9) + 1)


def _step(face: PlanFace) -> tuple[float, float, str]:
    """Distance of the lines in m, and the unit they are named in: 1, 2 or 5 times a power of ten of it."""
    us = face.board.metrics.writer.system == "us"
    unit, symbol = (0.3048, "ft") if us else (1.0, "m")
    power = 1.0
    while True:
        for step in (1, 2, 5):
            if step * power * unit * face.scale.per_metre >= _CLOSEST:
                return step * power * unit, unit, symbol
        power *= 10


def _coordinate(face: PlanFace, value: float, symbol: str) -> tuple[str, float, float]:
    """A coordinate in words, and the size of the text."""
    text = f"{value:g} {symbol}".replace("-", "−")
    return text, face.board.metrics.letters(text, Role.DIMENSION), Role.DIMENSION.height


def _written(face: PlanFace, text: str, spots: Sequence[Box]) -> None:
    """On the first free spot, or nowhere: the lines beside it tell as much."""
    box = face.board.placer.first(spots)
    if box is not None:
        face.board.items.append(Lettering(text, box, Role.DIMENSION))
