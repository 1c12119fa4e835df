"""Numbers of the pages that places of the document stand on, printed so that a reader of paper can turn to them."""

from __future__ import annotations

from typing import Any

from compliance.documents.elements.theme import Style
from compliance.documents.page.faces import clean, face_for, text_width
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Line, shortened
from compliance.record import record


@record
class PageOf:
    """The page of the place `key`, with `before` in front. The first pass finds the pages, so that nothing stands here
    until then; a place that the document lacks raises KeyError."""

    key: str
    style: Style
    before: str = ""

    def lines(self, width: float) -> list[Line]:
        return [Line(self.style.leading, ink=Lettered(self._draw))]

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        style, text = self.style, f"{self.before}{canvas.places[self.key]}"
        slack = width - text_width(text, style.face, style.size)
        x = left + {"left": 0.0, "centre": slack / 2, "right": slack}[style.align]
        canvas.setFont(style.face, style.size)
        canvas.setFillColor(style.colour)
        canvas.drawString(x, top - style.baseline, text)


@record
class Reference:
    """One line of text that leads to the place `key`, its page behind it. Where the document lacks the place, the text
    stands alone, or, where it only `leads`, not at all."""

    text: str
    key: str
    style: Style
    leads: bool = False

    def lines(self, width: float) -> list[Line]:
        return [Line(self.style.leading, ink=Lettered(self.draw))]

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        style, page = self.style, canvas.places.get(self.key)
        if self.leads and not page:
            return
        text, behind = clean(self.text), f", p. {page}" if page else ""
        face = face_for(text, style.face)
        room = width - text_width(behind, style.face, style.size)
        shown = shortened(text, face, style.size, room)
        end = left + text_width(shown, face, style.size)
        if page:
            area = (left, top - style.leading, end + text_width(behind, style.face, style.size), top)
            canvas.begin_link(self.key, area)
        canvas.setFillColor(style.colour)
        canvas.setFont(face, style.size)
        canvas.drawString(left, top - style.baseline, shown)
        if page:
            canvas.setFont(style.face, style.size)
            canvas.drawString(end, top - style.baseline, behind)
            canvas.end_link()


@record
class Finder:
    """Marks beside each other, each with its page and a link: `places` are (text, key)."""

    places: tuple[tuple[str, str], ...]
    style: Style

    def lines(self, width: float) -> list[Line]:
        face, size = self.style.face, self.style.size
        longest = max((text_width(text, face_for(text, face), size) for text, _ in self.places), default=0.0)
        across = max(1, int(width // (longest + text_width(", p. 0000", face, size) + 12.0)))
        rows = [self.places[start : start + across] for start in range(0, len(self.places), across)]
        return [
            Line(self.style.leading + 1.5, ink=Lettered(_FinderRow(tuple(row), self.style, width / across).draw))
            for row in rows
        ]


@record
class _FinderRow:
    places: tuple[tuple[str, str], ...]
    style: Style
    each: float

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        for index, (text, key) in enumerate(self.places):
            Reference(text, key, self.style).draw(canvas, left + index * self.each, top, self.each)
