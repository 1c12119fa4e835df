"""Numbers of the pages that places of the document stand on, printed so that a reader of paper can turn to them."""

from __future__ import annotations

from typing import Any

from compliance.documents.elements.theme import Style
from compliance.documents.page.faces import clean, face_for, text_width
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Line, break_line, shortened
from compliance.record import record

NEAR, FAR = "p. 0000", "calculations p. 0000"
"""The longest that may stand behind a reference within a document, and behind one that may lead to another part."""


@record
class PageOf:
    """The page of the place `key`, with `before` in front. The first pass finds the pages, so that nothing stands here
    until then; a place that is in no part of the document raises KeyError."""

    key: str
    style: Style
    before: str = ""

    def lines(self, width: float) -> list[Line]:
        return [Line(self.style.leading, ink=Lettered(self._draw))]

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        label = canvas.label(self.key, "")
        if not label:
            raise KeyError(self.key)
        style, text = self.style, f"{self.before}{label}"
        slack = width - text_width(text, style.face, style.size)
        x = left + {"left": 0.0, "centre": slack / 2, "right": slack}[style.align]
        canvas.setFont(style.face, style.size)
        canvas.setFillColor(style.colour)
        canvas.drawString(x, top - style.baseline, text)


@record
class Reference:
    """Text that leads to the place `key`, in as many lines as it takes, its page behind it. Where the place is in no
    part of the document, the text stands alone, or, where it only `leads`, not at all. `far`: the place may be in
    another part, so that more room is kept for where it is."""

    text: str
    key: str
    style: Style
    leads: bool = False
    far: bool = False

    def lines(self, width: float) -> list[Line]:
        style, text = self.style, clean(self.text).replace("\n", " ")
        face = face_for(text, style.face)
        behind = text_width(f", {FAR if self.far else NEAR}", style.face, style.size)
        broken = break_line(text, face, style.size, width)
        if text_width(broken[-1], face, style.size) + behind > width:
            broken.append("")  # the page on a line of its own
        whole = tuple(broken)
        return [
            Line(style.leading, ink=Lettered(_ReferenceLine(self, whole, index).draw)) for index in range(len(whole))
        ]

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        """On one line, cut where it is too long: for a place that has room for no more."""
        label = canvas.label(self.key)
        behind = text_width(f", {label}" if label else "", self.style.face, self.style.size)
        text = clean(self.text)
        shown = shortened(text, face_for(text, self.style.face), self.style.size, width - behind)
        _ReferenceLine(self, (shown,), 0).draw(canvas, left, top, width)


@record
class _ReferenceLine:
    of: Reference
    texts: tuple[str, ...]
    index: int

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        style, label = self.of.style, canvas.label(self.of.key)
        if self.of.leads and not label:
            return
        text = self.texts[self.index]
        face = face_for(text, style.face)
        end = left + text_width(text, face, style.size)
        is_last = self.index == len(self.texts) - 1
        behind = f", {label}" if label and is_last else "" if is_last else " "
        if not text:
            behind = label
        linked = self.of.key in canvas.places
        if linked:
            across = end + text_width(behind, style.face, style.size)
            canvas.begin_link(self.of.key, (left, top - style.leading, across, top))
        canvas.setFillColor(style.colour)
        if text:
            canvas.setFont(face, style.size)
            canvas.drawString(left, top - style.baseline, text)
        if behind.strip() or (behind and text):
            canvas.setFont(style.face, style.size)
            canvas.drawString(end, top - style.baseline, behind)
        if linked:
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
