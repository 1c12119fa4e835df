"""Lettering on drawings: the few sizes of text, and texts fitted to a width. Widths come from whoever sets them."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum


class Role(Enum):
    """What a text is for, with its size in points. None is so small that a print at 70 % loses it."""

    DIMENSION = ("dimension", 8.0)
    NOTE = ("note", 8.0)
    MARK = ("mark", 9.0)
    CODE = ("code", 8.0)
    HEADING = ("heading", 9.0)

    @property
    def size(self) -> float:
        return self.value[1]

    @property
    def height(self) -> float:
        """From the lowest descender to the highest ascender."""
        return self.size * 1.18


Letters = Callable[[str, Role], float]
"""The width of a text in points."""


def one_line(text: str) -> str:
    """Text of a user without line breaks or runs of blanks."""
    return " ".join(text.split())


def fitted(text: str, role: Role, width: float, letters: Letters) -> str:
    """The text, cut with an ellipsis where it is wider than `width` points."""
    if letters(text, role) <= width:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if letters(text[:middle].rstrip() + "…", role) <= width:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + "…"


def wrapped(text: str, role: Role, width: float, letters: Letters) -> list[str]:
    """Lines no wider than `width` points, broken at blanks; a single word that is wider is cut."""
    lines: list[str] = []
    for word in one_line(text).split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and letters(longer, role) <= width:
            lines[-1] = longer
        else:
            lines.append(fitted(word, role, width, letters))
    return lines
