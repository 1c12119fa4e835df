"""Boxes to write in by hand or to type in on screen."""

from __future__ import annotations

from typing import Any

from compliance.documents.elements import theme
from compliance.documents.page.form_fields import text_field
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Line
from compliance.record import record

TALL = 19.0


@record
class Box:
    """An empty box over the width of its cell, with a field of its name."""

    name: str
    tip: str
    height: float = TALL

    def lines(self, width: float) -> list[Line]:
        return [Line(self.height + 2, ink=Lettered(self._draw))]

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        canvas.setStrokeColor(theme.UMBER)
        canvas.setLineWidth(0.6)
        canvas.rect(left, top - self.height, width, self.height, stroke=1, fill=0)
        text_field(canvas, self.name, self.tip, (left + 1, top - self.height + 1, left + width - 1, top - 1))


@record
class Lines:
    """Lines to write on side by side: name of the field, what stands under the line, share of the width."""

    parts: tuple[tuple[str, str, float], ...]

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        gap = width * (1 - sum(share for _, _, share in self.parts)) / max(len(self.parts) - 1, 1)
        x, y = left, top - 20
        for name, label, share in self.parts:
            across = width * share
            canvas.setStrokeColor(theme.INK)
            canvas.setLineWidth(0.6)
            canvas.line(x, y, x + across, y)
            canvas.setFont(theme.LABEL.face, 8.0)
            canvas.setFillColor(theme.UMBER)
            canvas.drawString(x, y - 8, f"{label} ")
            text_field(canvas, name, label, (x, y + 1, x + across, y + 17))
            x += across + gap
