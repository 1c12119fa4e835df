"""Numbers of the pages that places of the document stand on, printed so that a reader of paper can turn to them."""

from __future__ import annotations

from typing import Any

from compliance.documents.faces import text_width
from compliance.documents.theme import Style
from compliance.documents.words import Line
from compliance.record import record


@record
class PageOf:
    """The page of the place `key`, with `before` in front. The first pass finds the pages, so that nothing stands here
    until then; a place that the document lacks raises KeyError."""

    key: str
    style: Style
    before: str = ""

    def lines(self, width: float) -> list[Line]:
        return [Line(self.style.leading, draw=self._draw)]

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        style, text = self.style, f"{self.before}{canvas.places[self.key]}"
        slack = width - text_width(text, style.face, style.size)
        x = left + {"left": 0.0, "centre": slack / 2, "right": slack}[style.align]
        canvas.setFont(style.face, style.size)
        canvas.setFillColor(style.colour)
        canvas.drawString(x, top - style.baseline, text)
