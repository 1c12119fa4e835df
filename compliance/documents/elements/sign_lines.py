"""Lines to tick, date and sign by hand: one for each subject, as many beside each other as fit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from compliance.documents.elements import theme
from compliance.documents.elements.theme import Style
from compliance.documents.page.faces import face_for, text_width
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Line, shortened
from compliance.record import record

BOXES = ("passed", "not passed")


@record
class SignLines:
    """A line for each of `names`: the name, a box for each of `boxes`, then room for the day and who looked."""

    names: tuple[str, ...]
    style: Style
    across: int = 2
    height: float = 18.0
    name_width: float = 46.0
    boxes: tuple[str, ...] = BOXES

    def lines(self, width: float) -> list[Line]:
        rows = [self.names[start : start + self.across] for start in range(0, len(self.names), self.across)]
        return [Line(self.height, ink=Lettered(_Row(self, tuple(row)).draw)) for row in rows]


@record
class _Row:
    of: SignLines
    names: tuple[str, ...]

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        gap = 18.0
        each = (width - gap * (self.of.across - 1)) / self.of.across
        for index, name in enumerate(self.names):
            _sign_line(canvas, of=self.of, name=name, left=left + index * (each + gap), top=top, width=each)


def _sign_line(canvas: Any, of: SignLines, name: str, left: float, top: float, width: float) -> None:
    style = of.style
    base = top - of.height + 4
    _put(canvas, text=name, style=style, colour=theme.INK, x=left, y=base, room=of.name_width - 4)
    x = left + of.name_width
    small = Style(style.face, style.size * 0.86, style.leading, theme.UMBER)
    for word in of.boxes:
        x = draw_box(canvas, x=x, base=base, size=style.size, word=word, style=small)
    x = _blank(canvas, word="on", style=small, x=x, base=base, width=0.45 * (left + width - x))
    _blank(canvas, word="by", style=small, x=x, base=base, width=left + width - x)


def draw_box(canvas: Any, x: float, base: float, size: float, word: str, style: Style) -> float:
    """An empty box with its word behind it; gives where the next may begin."""
    canvas.setStrokeColor(theme.INK)
    canvas.setLineWidth(0.7)
    canvas.rect(x, base - 0.12 * size, size, size, stroke=1, fill=0)
    _put(canvas, text=word, style=style, colour=style.colour, x=x + size + 3, y=base, room=200)
    return x + size + 3 + text_width(word, style.face, style.size) + 9


def _blank(canvas: Any, word: str, style: Style, x: float, base: float, width: float) -> float:
    """A word and the line to write on behind it."""
    _put(canvas, text=word, style=style, colour=style.colour, x=x, y=base, room=width)
    start = x + text_width(word, style.face, style.size) + 3
    canvas.setStrokeColor(theme.INK)
    canvas.setLineWidth(0.5)
    if x + width - 6 > start:
        canvas.line(start, base - 1.5, x + width - 6, base - 1.5)
    return x + width


def _put(canvas: Any, text: str, style: Style, colour: Any, x: float, y: float, room: float) -> None:
    face = face_for(text, style.face)
    canvas.setFont(face, style.size)
    canvas.setFillColor(colour)
    canvas.drawString(x, y, f"{shortened(text, face, style.size, room)} ")


@record
class WriteLines:
    """Words, each with a line to write on behind it, as many beside each other as `across`."""

    words: tuple[str, ...]
    style: Style
    height: float = 18.0
    across: int = 1

    def lines(self, width: float) -> list[Line]:
        rows = [self.words[start : start + self.across] for start in range(0, len(self.words), self.across)]
        return [Line(self.height, ink=Lettered(_WriteRow(self, row).draw)) for row in rows]


@record
class _WriteRow:
    of: WriteLines
    words: tuple[str, ...]

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        each = (width + 6) / len(self.words)
        for index, word in enumerate(self.words):
            base = top - self.of.height + 4
            _blank(canvas, word=word, style=self.of.style, x=left + index * each, base=base, width=each)


@record
class Tag:
    """A word in a frame; filled where it must not be overlooked."""

    word: str
    filled: bool
    style: Style

    def lines(self, width: float) -> list[Line]:
        return [Line(self.style.leading + 3, ink=Lettered(self._draw))]

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        draw_tag(canvas, word=self.word, filled=self.filled, style=self.style, x=left, y=top - self.style.leading)


def draw_tag(canvas: Any, word: str, filled: bool, style: Style, x: float, y: float) -> float:
    """The tag with its lower left corner at (x, y); gives its width."""
    width = text_width(word, style.face, style.size) + style.size
    canvas.setStrokeColor(theme.INK)
    canvas.setFillColor(theme.INK)
    canvas.setLineWidth(0.8)
    canvas.rect(x, y, width, style.leading, stroke=1, fill=1 if filled else 0)
    canvas.setFillColor(theme.CHALK if filled else theme.INK)
    canvas.setFont(style.face, style.size)
    canvas.drawString(x + style.size / 2, y + style.leading - style.baseline, f"{word} ")
    return width


def in_turn(names: Sequence[str], most: int) -> list[tuple[str, ...]]:
    """Names in parts of nearly the same length, none longer than `most`."""
    size = -(-len(names) // -(-len(names) // most)) if names else 1
    return [tuple(names[start : start + size]) for start in range(0, len(names), size)]
