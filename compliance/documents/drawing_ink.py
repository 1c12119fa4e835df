"""Drawings inked on a page: pens, tones with their patterns, lettering, signs, dimension lines."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from typing import Any

from reportlab.lib.colors import HexColor

from compliance.documents import theme
from compliance.documents.drawing_patterns import PATTERNS
from compliance.documents.faces import NARROW, NARROW_BOLD, NARROW_MEDIUM, clean, em_width, face_for
from compliance.documents.marks import Mark, draw_mark
from compliance.drawings.elevation_labels import HELD, NOT_HELD
from compliance.drawings.lettering import Role
from compliance.drawings.primitives import (
    Bow,
    Dimension,
    Drawing,
    Filled,
    Item,
    Lettering,
    Pen,
    Point,
    Sign,
    Stroke,
    Tone,
)
from compliance.record import record

_FACES = {
    Role.DIMENSION: NARROW, Role.NOTE: NARROW, Role.MARK: NARROW_BOLD, Role.CODE: NARROW_MEDIUM,
    Role.HEADING: NARROW_BOLD,
}  # fmt: skip
_BASELINE = 0.26
_TICK = 2.4
_PAST_LINE = 2.0


@record
class _Line:
    weight: float
    colour: Any
    dashes: tuple[float, ...] = ()


_PENS = {
    Pen.CUT: _Line(1.1, theme.INK),
    Pen.EDGE: _Line(0.65, theme.INK),
    Pen.FINE: _Line(0.5, theme.UMBER),
    Pen.HIDDEN: _Line(0.55, theme.INK, (3.0, 2.0)),
    Pen.BREAK: _Line(0.5, theme.UMBER, (7.0, 2.0, 1.5, 2.0)),
    Pen.MEASURE: _Line(0.45, theme.UMBER),
    Pen.GRID: _Line(0.4, theme.SAND),
    Pen.RASTER: _Line(0.35, HexColor("#DDD5C6")),
}
_TONES = {
    Tone.EARTH: HexColor("#EFE6D5"),
    Tone.MASONRY: HexColor("#DEDAD3"),
    Tone.CONCRETE: HexColor("#E3E3E1"),
    Tone.RUBBLE: HexColor("#F4F1EC"),
    Tone.WOOD: HexColor("#E8CFA0"),
    Tone.FINISH: HexColor("#FBF9F5"),
    Tone.BAND: HexColor("#DACBB0"),
    Tone.INK: theme.INK,
    Tone.PAPER: HexColor("#FFFFFF"),
}


@lru_cache(maxsize=4096)
def letters(text: str, role: Role) -> float:
    """The width of a text on a drawing in points. Raises DocumentError for a character no face has."""
    ready = clean(text)
    return em_width(ready, face_for(ready, _FACES[role])) * role.size


def ink(canvas: Any, drawing: Drawing) -> None:
    """Draw everything of `drawing` with its lower left corner at the origin of the canvas."""
    ink_items(canvas, drawing.items)


def ink_items(canvas: Any, items: Iterable[Item]) -> None:
    """Draw in the order given."""
    for item in items:
        _INKED[type(item)](canvas, item)


def _use(canvas: Any, pen: Pen) -> None:
    line = _PENS[pen]
    canvas.setLineWidth(line.weight)
    canvas.setStrokeColor(line.colour)
    canvas.setDash(*([line.dashes] if line.dashes else []))


def _path(canvas: Any, points: Sequence[Point], closed: bool) -> Any:
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    if closed:
        path.close()
    return path


def _stroke(canvas: Any, item: Stroke) -> None:
    _use(canvas, item.pen)
    canvas.drawPath(_path(canvas, item.points, item.closed), stroke=1, fill=0)


def _bow(canvas: Any, item: Bow) -> None:
    """A circular arc as Bézier curves of at most a quarter turn."""
    _use(canvas, item.pen)
    path = canvas.beginPath()
    path.moveTo(*item.point(0.0))
    count = max(1, math.ceil(abs(item.sweep) / (math.pi / 2) - 1e-9))
    step = item.sweep / count
    reach = 4 / 3 * math.tan(step / 4) * item.radius
    for index in range(count):
        first, last = item.first + index * step, item.first + (index + 1) * step
        (x0, y0), (x1, y1) = item.point(index / count), item.point((index + 1) / count)
        path.curveTo(
            x0 - reach * math.sin(first), y0 + reach * math.cos(first),
            x1 + reach * math.sin(last), y1 - reach * math.cos(last), x1, y1,
        )  # fmt: skip
    canvas.drawPath(path, stroke=1, fill=0)


def _filled(canvas: Any, item: Filled) -> None:
    canvas.setFillColor(_TONES[item.tone])
    canvas.drawPath(_path(canvas, item.points, closed=True), stroke=0, fill=1)
    pattern = PATTERNS.get(item.tone)
    if pattern:
        canvas.saveState()
        canvas.clipPath(_path(canvas, item.points, closed=True), stroke=0, fill=0)
        canvas.setDash()
        pattern(canvas, item.points)
        canvas.restoreState()


def _lettering(canvas: Any, item: Lettering) -> None:
    text = clean(item.text)
    face, size, box = face_for(text, _FACES[item.role]), item.role.size, item.box
    if item.plate:
        canvas.setFillColor(_TONES[Tone.PAPER])
        canvas.rect(box.left - 0.6, box.bottom, box.width + 1.2, box.height, stroke=0, fill=1)
    canvas.setFillColor(theme.INK)
    canvas.setFont(face, size)
    if item.upright:
        canvas.saveState()
        canvas.translate(box.right - _BASELINE * size, box.bottom)
        canvas.rotate(90)
        canvas.drawString(0, 0, text)
        canvas.restoreState()
    else:
        canvas.drawString(box.left, box.bottom + _BASELINE * size, text)
    if item.link in canvas.places:
        canvas.link(item.link, (box.left - 1, box.bottom - 1, box.right + 1, box.top + 1))


def _sign(canvas: Any, item: Sign) -> None:
    box = item.box
    if item.mark == HELD:
        canvas.setFillColor(theme.INK)
        canvas.rect(box.left, box.bottom, box.width, box.height, stroke=0, fill=1)
    elif item.mark == NOT_HELD:
        _use(canvas, Pen.EDGE)
        canvas.rect(box.left, box.bottom, box.width, box.height, stroke=1, fill=0)
        canvas.lines([(box.left, box.bottom, box.right, box.top), (box.left, box.top, box.right, box.bottom)])
    else:
        canvas.setDash()
        draw_mark(canvas, Mark[item.mark], box.left, box.bottom, box.width)


def _dimension(canvas: Any, item: Dimension) -> None:
    _use(canvas, Pen.MEASURE)
    (x0, y0), (x1, y1) = item.start, item.end
    canvas.line(x0, y0, x1, y1)
    length = math.dist(item.start, item.end) or 1.0
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    tx, ty = _TICK * (ux - uy) / math.sqrt(2), _TICK * (uy + ux) / math.sqrt(2)
    for (x, y), foot in zip((item.start, item.end), item.feet or (item.start, item.end), strict=True):
        canvas.line(x - tx, y - ty, x + tx, y + ty)
        out = math.dist(foot, (x, y))
        if out > 1e-6:
            past = (out + _PAST_LINE) / out
            canvas.line(*foot, foot[0] + past * (x - foot[0]), foot[1] + past * (y - foot[1]))


_INKED: dict[type[Item], Callable[[Any, Any], None]] = {
    Stroke: _stroke, Bow: _bow, Filled: _filled, Lettering: _lettering, Sign: _sign, Dimension: _dimension,
}  # fmt: skip
