"""Text broken into lines, ready to draw: plain text as it is, worked lines broken before their equal signs."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple, Protocol

from compliance.documents.elements.theme import Style
from compliance.documents.page.faces import clean, em_width, face_for
from compliance.documents.page.inked import Ink
from compliance.record import record
from compliance.units import words_of

_EQUALS = re.compile(r" = (?![^\[\]]*\])")
_STEP_INDENT = 12.0
_SLACK = 1e-6  # a column made to the width of its text holds it, whatever the rounding


class Line(NamedTuple):
    """One line of a cell: a text in one style, or something drawn. `cut`: its last word goes on in the next line.
    `clear` is left free at its right, in points."""

    height: float
    text: str = ""
    style: Style | None = None
    face: str = ""
    indent: float = 0.0
    ink: Ink | None = None
    cut: bool = False
    clear: float = 0.0


class Part(Protocol):
    """What a cell is made of."""

    def lines(self, width: float) -> list[Line]: ...


@record
class Words:
    """Text in one style; its line breaks are kept. `indent` and `clear` are left free at its left and right, `after`
    below it. Raises DocumentError for a character no face has."""

    text: str
    style: Style
    indent: float = 0.0
    after: float = 0.0
    clear: float = 0.0

    def lines(self, width: float) -> list[Line]:
        text = clean(self.text)
        face = face_for(text, self.style.face)
        size, leading, room = self.style.size, self.style.leading, width - self.indent - self.clear
        lines = [
            Line(
                leading, text=line, style=self.style, face=face, indent=self.indent, ink=None, cut=cut, clear=self.clear
            )
            for part in text.split("\n")
            for line, cut in _broken(part, face, size, room)
        ]
        return [*lines, Line(self.after)] if self.after else lines


@record
class Worked:
    """A worked line ("says: x = formula = numbers = result"), broken before an equal sign where it is too long."""

    text: str
    style: Style

    def lines(self, width: float) -> list[Line]:
        text = clean(self.text).replace("\n", " ")
        face = face_for(text, self.style.face)
        size, leading = self.style.size, self.style.leading
        if em_width(text, face) * size <= width:
            return [Line(leading, text, self.style, face)]
        lines: list[Line] = []
        for index, part in enumerate(_by_equal_signs(text)):
            indent = _STEP_INDENT if index else 0.0
            for turn, (line, cut) in enumerate(_broken(part, face, size, width - indent - _STEP_INDENT)):
                left = indent + (_STEP_INDENT if turn else 0.0)
                lines.append(Line(leading, text=line, style=self.style, face=face, indent=left, ink=None, cut=cut))
        return lines


@record
class Drawn:
    """Something drawn, of a given height."""

    height: float
    ink: Ink

    def lines(self, width: float) -> list[Line]:
        return [Line(self.height, ink=self.ink)]


def _by_equal_signs(text: str) -> list[str]:
    """The head with its first equation, then one part for each further equal sign; those of a source in square
    brackets are words of it."""
    first, *rest = _EQUALS.split(text)
    if not rest:
        return [text]
    return [f"{first} = {rest[0]}", *(f"= {part}" for part in rest[1:])]


def break_line(text: str, face: str, size: float, width: float) -> list[str]:
    """Lines no wider than `width` points, broken at blanks; a number stays with its unit, a long word is cut."""
    return [line for line, _ in _broken(text, face, size, width)]


def _broken(text: str, face: str, size: float, width: float) -> list[tuple[str, bool]]:
    """The lines, and of each whether its last word goes on in the next."""
    room = max(width, size) / size + _SLACK
    if text.strip() == text and "  " not in text and em_width(text, face) <= room:
        return [(text, False)]
    blank = em_width(" ", face)
    lines: list[tuple[str, bool]] = []
    line, used = "", 0.0
    for word in words_of(text):
        long = em_width(word, face)
        if line and used + blank + long <= room:
            line, used = f"{line} {word}", used + blank + long
            continue
        if line:
            lines.append((line, False))
        while long > room:
            head = _head(word, face, room)
            word = word[len(head) :]
            lines.append((head, bool(word)))
            long = em_width(word, face)
        line, used = word, long
    return [*lines, (line, False)] if line or not lines else lines


@lru_cache(maxsize=4096)
def _head(word: str, face: str, room: float) -> str:
    """As many first characters as fit, at least one; up to a hyphen where there is one among them."""
    used = 0.0
    for index, character in enumerate(word):
        used += em_width(character, face)
        if used > room and index:
            return word[: word.rfind("-", 1, index) + 1] or word[:index]
    return word


def shortened(text: str, face: str, size: float, width: float) -> str:
    """One line cut to `width` points with an ellipsis where it is too long."""
    text = clean(text).replace("\n", " ")
    if em_width(text, face) * size <= width:
        return text
    head = _head(text, face, width / size - em_width("…", face))
    return f"{head.rstrip()}…"
