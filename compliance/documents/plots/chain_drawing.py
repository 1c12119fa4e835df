"""The chain of evidence of a mix, drawn."""

from __future__ import annotations

import math
from typing import Any

from reportlab.lib.colors import white

from compliance.documents.elements import theme
from compliance.documents.page.faces import NARROW, NARROW_BOLD, NARROW_MEDIUM, clean, face_for, text_width
from compliance.documents.page.inked import Figure
from compliance.documents.page.line_breaking import Line, shortened
from compliance.documents.plots.chain_boxes import Flow
from compliance.documents.plots.chain_diagram import LEADING, PAD, SIZE, Placed, Points, placing
from compliance.record import record

_DASHED = "dashed: what the specimens show speaks for these walls, as long as soil, mix and work stay the same"
_ARROW = 3.6


@record
class ChainFigure:
    """The figure as part of a cell."""

    flow: Flow

    def lines(self, width: float) -> list[Line]:
        return [Line(placing(self.flow, width).height, ink=Figure(self._draw, self.flow.alt_text))]

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        found = placing(self.flow, width)
        canvas.saveState()
        canvas.translate(left, top)
        canvas.setStrokeColor(theme.UMBER)
        canvas.setFillColor(theme.UMBER)
        canvas.setLineWidth(0.7)
        for points in found.ties:
            _line(canvas, points)
            _arrow(canvas, points)
        canvas.setDash(3, 2)
        for points in (*found.heard, *found.speaking):
            _line(canvas, points)
        canvas.setDash()
        for points in found.speaking:
            _arrow(canvas, points)
        if found.speaking:
            canvas.setFont(NARROW_MEDIUM, 8.0)
            canvas.drawString(0, 2 - found.height, _DASHED)
        for one in found.boxes:
            _box(canvas, one)
        canvas.restoreState()


def _line(canvas: Any, points: Points) -> None:
    path = canvas.beginPath()
    path.moveTo(points[0][0], -points[0][1])
    for x, y in points[1:]:
        path.lineTo(x, -y)
    canvas.drawPath(path, stroke=1, fill=0)


def _arrow(canvas: Any, points: Points) -> None:
    (x0, y0), (x, y) = points[-2], points[-1]
    angle = math.atan2(y0 - y, x - x0)
    path = canvas.beginPath()
    path.moveTo(x, -y)
    for turn in (math.pi - 0.42, math.pi + 0.42):
        path.lineTo(x + _ARROW * math.cos(angle + turn), -y + _ARROW * math.sin(angle + turn))
    path.close()
    canvas.drawPath(path, stroke=0, fill=1)


def _box(canvas: Any, one: Placed) -> None:
    """What the project leaves open is dashed; walls have a heavy edge."""
    canvas.setFillColor(theme.CHALK if one.box.given else white)
    canvas.setLineWidth(1.4 if one.box.kind in ("wall", "walls") else 0.7)
    if not one.box.given:
        canvas.setDash(1.5, 1.8)
    canvas.rect(one.left, -one.bottom, one.width, one.height, stroke=1, fill=1)
    canvas.setDash()
    y = -one.top - PAD - 0.78 * LEADING
    _head(canvas, one, y)
    canvas.setFillColor(theme.INK)
    for text in one.lines[1:]:
        y -= LEADING
        canvas.setFont(face_for(text, NARROW), SIZE)
        canvas.drawString(one.left + PAD, y, text)


def _head(canvas: Any, one: Placed, y: float) -> None:
    """The kind, and the marks in bold."""
    canvas.setFillColor(theme.UMBER)
    canvas.setFont(NARROW_MEDIUM, SIZE)
    canvas.drawString(one.left + PAD, y, one.box.kind)
    after = text_width(one.box.kind, NARROW_MEDIUM, SIZE) + 3
    marks = clean(one.box.marks)
    face = face_for(marks, NARROW_BOLD)
    canvas.setFillColor(theme.INK)
    canvas.setFont(face, SIZE)
    canvas.drawString(one.left + PAD + after, y, shortened(marks, face, SIZE, one.width - 2 * PAD - after))
