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
            x = draw_box(
                canvas, x=x, base=base, size=self.of.style.size, word=self.of.fitted(word, width), style=self.of.style
            )
        if self.write:
            canvas.setStrokeColor(theme.INK)
            canvas.setLineWidth(0.5)
            canvas.line(x, base - 1.5, left + width, base - 1.5)


@record
class FewLines:
    """A text on at most `most` lines; what is over is cut, with an ellipsis."""

    text: str
    style: Style
    most: int

    def lines(self, width: float) -> list[Line]:
        return _cut(self.text, self.style, self.most, width)


@record
class FewParts:
    """Parts, separated by semicolons, on at most `most` lines; those that do not fit are left out and counted. A first
    part that is too long by itself is cut, with an ellipsis."""

    parts: tuple[str, ...]
    style: Style
    most: int

    def lines(self, width: float) -> list[Line]:
        text = ""
        for count in range(len(self.parts), 0, -1):
            left_out = len(self.parts) - count
            text = "; ".join((*self.parts[:count], *((f"and {left_out} more",) if left_out else ())))
            if len(_broken(text, self.style, width)) <= self.most:
                break
        return _cut(text, self.style, self.most, width)


def _broken(text: str, style: Style, width: float) -> list[str]:
    text = clean(text).replace("\n", " ")
    return break_line(text, face_for(text, style.face), style.size, width)


def _cut(text: str, style: Style, most: int, width: float) -> list[Line]:
    broken, face = _broken(text, style, width), face_for(clean(text), style.face)
    if len(broken) > most:
        broken = [*broken[: most - 1], shortened(" ".join(broken[most - 1 :]), face, style.size, width)]
    return [Line(style.leading, line, style, face) for line in broken]
