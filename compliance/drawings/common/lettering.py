"""Lettering on drawings: the few sizes of text, and texts fitted to a width. Widths come from whoever sets them."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum

from compliance.units import words_of

LEAST = 9.7
"""Points: capitals 3/32 in tall in a face whose capitals are 0.698 of its size. Offices commonly ask for that height
on sheets of drawings (common practice, no source)."""


class Role(Enum):
    """What a text is for, with its size in points, none of them below `LEAST`."""

    DIMENSION = ("dimension", LEAST)
    NOTE = ("note", LEAST)
    MARK = ("mark", 10.4)
    CODE = ("code", LEAST)
    HEADING = ("heading", LEAST)

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
    """Lines no wider than `width` points, broken at blanks, not between a number and its unit where that fits; a single
    word that is wider is cut."""
    lines: list[str] = []
    together = words_of(one_line(text)) or ("",)
    for word in (one for each in together for one in ([each] if letters(each, role) <= width else each.split(" "))):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and letters(longer, role) <= width:
            lines[-1] = longer
        else:
            lines.append(fitted(word, role, width, letters))
    return lines
