"""Drawings inked on a page: pens, tones with their patterns, lettering, signs, dimension lines."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import Any

from reportlab.lib.colors import HexColor

from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import draw_mark
from compliance.documents.elements.strokes import CLIP, FILL, STROKE, circle, filling, outline, pen, segments
from compliance.documents.elements.strokes import box as rectangle
from compliance.documents.figures.drawing_patterns import PATTERNS
from compliance.documents.page.faces import NARROW, NARROW_BOLD, NARROW_MEDIUM, clean, em_width, face_for
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.primitives import (
    Bow,
    Bubble,
    Dimension,
    Drawing,
    Filled,
    Item,
    Lettering,
    Pen,
    Sign,
    Stroke,
    Tone,
)
from compliance.drawings.elevation.elevation_labels import HELD, NOT_HELD
from compliance.report.marks import Mark

_FACES = {
    Role.DIMENSION: NARROW, Role.NOTE: NARROW, Role.MARK: NARROW_BOLD, Role.CODE: NARROW_MEDIUM,
    Role.HEADING: NARROW_BOLD,
}  # fmt: skip
_BASELINE, _CAPITAL = 0.26, 0.698
_TICK = 2.4
_PAST_LINE = 2.0


_PENS = {
    Pen.CUT: pen(1.1, theme.INK),
    Pen.EDGE: pen(0.65, theme.INK),
    Pen.FINE: pen(0.5, theme.UMBER),
    Pen.HIDDEN: pen(0.55, theme.INK, (3.0, 2.0)),
    Pen.PROPERTY: pen(1.0, theme.INK, (14.0, 3.0, 2.0, 3.0, 2.0, 3.0)),
    Pen.BREAK: pen(0.5, theme.UMBER, (7.0, 2.0, 1.5, 2.0)),
    Pen.MEASURE: pen(0.45, theme.UMBER),
    Pen.GRID: pen(0.4, theme.SAND),
    Pen.RASTER: pen(0.35, HexColor("#DDD5C6")),
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


def _stroke(canvas: Any, item: Stroke) -> None:
    canvas.addLiteral(f"{_PENS[item.pen]} {outline(item.points, item.closed)} {STROKE}")


def _bow(canvas: Any, item: Bow) -> None:
    """A circular arc as Bézier curves of at most a quarter turn."""
    x, y = item.point(0.0)
    parts = [f"{_PENS[item.pen]} {x:.2f} {y:.2f} m"]
    count = max(1, math.ceil(abs(item.sweep) / (math.pi / 2) - 1e-9))
    step = item.sweep / count
    reach = 4 / 3 * math.tan(step / 4) * item.radius
    for index in range(count):
        first, last = item.first + index * step, item.first + (index + 1) * step
        (x0, y0), (x1, y1) = item.point(index / count), item.point((index + 1) / count)
        parts.append(
            f"{x0 - reach * math.sin(first):.2f} {y0 + reach * math.cos(first):.2f} "
            f"{x1 + reach * math.sin(last):.2f} {y1 - reach * math.cos(last):.2f} {x1:.2f} {y1:.2f} c"
        )
    canvas.addLiteral(" ".join([*parts, STROKE]))


def _filled(canvas: Any, item: Filled) -> None:
    shape = outline(item.points, closed=True)
    canvas.addLiteral(f"{filling(_TONES[item.tone])} {shape} {FILL}")
    pattern = PATTERNS.get(item.tone)
    if pattern:
        canvas.saveState()
        canvas.addLiteral(f"{shape} {CLIP} {pattern(item.points)}")
        canvas.restoreState()


def _lettering(canvas: Any, item: Lettering) -> None:
    text = clean(item.text)
    face, size, box = face_for(text, _FACES[item.role]), item.role.size, item.box
    if item.plate:
        paper = rectangle(box.left - 0.6, box.bottom, box.width + 1.2, box.height)
        canvas.addLiteral(f"{filling(_TONES[Tone.PAPER])} {paper} {FILL}")
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
    square = rectangle(box.left, box.bottom, box.width, box.height)
    if item.mark == HELD:
        canvas.addLiteral(f"{filling(theme.INK)} {square} {FILL}")
    elif item.mark == NOT_HELD:
        cross = [(box.left, box.bottom, box.right, box.top), (box.left, box.top, box.right, box.bottom)]
        canvas.addLiteral(f"{_PENS[Pen.EDGE]} {square} {segments(cross)} {STROKE}")
    else:
        draw_mark(canvas, mark=Mark[item.mark], x=box.left, y=box.bottom, size=box.width)


def _dimension(canvas: Any, item: Dimension) -> None:
    (x0, y0), (x1, y1) = item.start, item.end
    lines = [(x0, y0, x1, y1)]
    length = math.dist(item.start, item.end) or 1.0
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    tx, ty = _TICK * (ux - uy) / math.sqrt(2), _TICK * (uy + ux) / math.sqrt(2)
    for (x, y), foot in zip((item.start, item.end), item.feet or (item.start, item.end), strict=True):
        lines.append((x - tx, y - ty, x + tx, y + ty))
        out = math.dist(foot, (x, y))
        if out > 1e-6:
            past = (out + _PAST_LINE) / out
            lines.append((*foot, foot[0] + past * (x - foot[0]), foot[1] + past * (y - foot[1])))
    canvas.addLiteral(f"{_PENS[Pen.MEASURE]} {segments(lines)} {STROKE}")


def _bubble(canvas: Any, item: Bubble) -> None:
    """Number over sheet; the sheet is left out while it is not known."""
    (x, y), radius, size = item.centre, item.radius, Role.NOTE.size
    shape = circle(x, y, radius)
    canvas.addLiteral(f"{filling(_TONES[Tone.PAPER])} {shape} {FILL} {_PENS[Pen.EDGE]} {shape} {STROKE}")
    canvas.addLiteral(f"{segments([(x - radius, y, x + radius, y)])} {STROKE}")
    sheet = canvas.label(item.key).split("sheet ")[-1]
    canvas.setFillColor(theme.INK)
    for text, role, baseline in ((item.number, Role.MARK, 2.4), (sheet, Role.NOTE, -2.0 - _CAPITAL * size)):
        if text:
            canvas.setFont(_FACES[role], role.size)
            canvas.drawString(x - letters(text, role) / 2, y + baseline, f"{text} ")
    if item.key in canvas.places:
        canvas.link(item.key, (x - radius, y - radius, x + radius, y + radius))


_INKED: dict[type[Item], Callable[[Any, Any], None]] = {
    Stroke: _stroke, Bow: _bow, Filled: _filled, Lettering: _lettering, Sign: _sign, Dimension: _dimension,
    Bubble: _bubble,
}  # fmt: skip
