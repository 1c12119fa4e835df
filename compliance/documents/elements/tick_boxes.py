"""Boxes to tick beside each other, with a line to write on behind the last where there is room for it."""

from __future__ import annotations

from typing import Any

from compliance.documents.elements import theme
from compliance.documents.elements.sign_lines import draw_box
from compliance.documents.elements.theme import Style
from compliance.documents.page.faces import clean, face_for, text_width
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Line, break_line, shortened
from compliance.record import record

_LEAST_TO_WRITE = 56.0
_HEIGHT = 15.0
_BOX, _BEHIND = 3.0, 9.0


@record
class TickBoxes:
    """`words` stand behind their boxes; `write` adds a line to write on."""

    words: tuple[str, ...]
    write: bool
    style: Style

    def lines(self, width: float) -> list[Line]:
        rows: list[list[str]] = [[]]
        used = 0.0
        for word in self.words:
            wide = self._wide(word, width)
            if rows[-1] and used + wide > width:
                rows.append([])
                used = 0.0
            rows[-1].append(word)
            used += wide
        if self.write and (width - used < _LEAST_TO_WRITE):
            rows.append([])
        last = len(rows) - 1
        return [
            Line(_HEIGHT, ink=Lettered(_Boxes(self, tuple(row), self.write and index == last).draw))
            for index, row in enumerate(rows)
            if row or self.write
        ]

    def _wide(self, word: str, width: float) -> float:
        size = self.style.size
        shown = self.fitted(word, width)
        return size + _BOX + text_width(shown, face_for(shown, self.style.face), size) + _BEHIND

    def fitted(self, word: str, width: float) -> str:
        """The word, cut where it is wider than the column."""
        word = clean(word)
        return shortened(word, face_for(word, self.style.face), self.style.size, width - self.style.size - _BOX)


@record
class _Boxes:
    of: TickBoxes
    words: tuple[str, ...]
    write: bool

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        x, base = left, top - _HEIGHT + 4.2
        for word in self.words:
            x = draw_box(canvas, x, base, self.of.style.size, self.of.fitted(word, width), self.of.style)
        if self.write:
            canvas.setStrokeColor(theme.INK)
            canvas.setLineWidth(0.5)
            canvas.line(x, base - 1.5, left + width, base - 1.5)


@record
class FewLines:
    """A text on at most `most` lines; what is over is cut, with an ellipsis. Of a text that is `listed`, parted by
    semicolons, whole parts are left out and counted."""

    text: str
    style: Style
    most: int
    listed: bool = False

    def lines(self, width: float) -> list[Line]:
        text = clean(self.text).replace("\n", " ")
        face = face_for(text, self.style.face)
        broken = break_line(text, face, self.style.size, width)
        parts = text.split("; ") if self.listed else []
        for count in range(len(parts) - 1, 0, -1):
            if len(broken) <= self.most:
                break
            left = f"{'; '.join(parts[:count])}; and {len(parts) - count} more"
            broken = break_line(left, face, self.style.size, width)
        if len(broken) > self.most:
            rest = " ".join(broken[self.most - 1 :])
            broken = [*broken[: self.most - 1], shortened(rest, face, self.style.size, width)]
        return [Line(self.style.leading, line, self.style, face) for line in broken]
