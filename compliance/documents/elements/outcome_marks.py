"""The mark of each outcome drawn: a shape of lines and fills, told apart without color, always with its word."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from compliance.documents.elements import theme
from compliance.documents.elements.strokes import FILL, STROKE, box, circle, filling, outline, pen, segments
from compliance.documents.elements.theme import Style
from compliance.documents.page.inked import Figure, Ornament
from compliance.documents.page.line_breaking import Line, Words
from compliance.record import record
from compliance.report.marks import Mark


def draw_mark(canvas: Any, mark: Mark, x: float, y: float, size: float) -> None:
    """Draw a mark into the square whose lower left corner is (x, y)."""
    colour = theme.PIGMENTS[mark.value.pigment]
    canvas.addLiteral(f"{filling(colour)} {pen(size * _WEIGHTS.get(mark, 0.14), colour)} {_SHAPES[mark](x, y, size)}")


def _courses(x: float, y: float, size: float) -> str:
    """Two courses of a wall with the joint between them."""
    return " ".join(f"{box(x, y + low * size, size, 0.38 * size)} {FILL}" for low in (0.03, 0.59))


def _wedge(x: float, y: float, size: float) -> str:
    points = ((x, y + 0.08 * size), (x + size, y + 0.08 * size), (x + size / 2, y + 0.98 * size))
    return f"{outline(points, closed=True)} {FILL}"


def _corners(x: float, y: float, size: float) -> str:
    """Four corners of a square that is not there."""
    near, far, reach = 0.1 * size, 0.9 * size, 0.26 * size
    lines = []
    for cx, dx in ((x + near, reach), (x + far, -reach)):
        for cy, dy in ((y + near, reach), (y + far, -reach)):
            lines += [(cx, cy, cx + dx, cy), (cx, cy, cx, cy + dy)]
    return f"{segments(lines)} {STROKE}"


def _half_lozenge(x: float, y: float, size: float) -> str:
    middle, low, high = y + size / 2, y, y + size
    whole = ((x, middle), (x + size / 2, high), (x + size, middle), (x + size / 2, low))
    half = ((x, middle), (x + size / 2, high), (x + size / 2, low))
    return f"{outline(whole, closed=True)} {STROKE} {outline(half, closed=True)} {FILL}"


def _ring(x: float, y: float, size: float) -> str:
    return f"{circle(x + size / 2, y + size / 2, 0.38 * size)} {STROKE}"


def _disc(x: float, y: float, size: float) -> str:
    return f"{circle(x + size / 2, y + size / 2, 0.46 * size)} {FILL}"


def _dash(x: float, y: float, size: float) -> str:
    return f"{segments([(x + 0.2 * size, y + size / 2, x + 0.8 * size, y + size / 2)])} {STROKE}"


def _dots(x: float, y: float, size: float) -> str:
    return " ".join(f"{circle(x + share * size, y + size / 2, 0.09 * size)} {FILL}" for share in (0.2, 0.5, 0.8))


_WEIGHTS = {Mark.CONFIRM: 0.1, Mark.RESERVED: 0.17}
"""Of the pen, of the mark's size, where it is not the usual one."""

_SHAPES: dict[Mark, Callable[[float, float, float], str]] = {
    Mark.ENGINEER: _courses,
    Mark.REVISE: _wedge,
    Mark.MISSING: _corners,
    Mark.CONFIRM: _half_lozenge,
    Mark.LATER: _dots,
    Mark.RESERVED: _ring,
    Mark.MEETS: _disc,
    Mark.NOT_APPLICABLE: _dash,
}


@record
class Marked:
    """A mark, and beside it a text in any number of lines. Without a text the mark stands in the middle."""

    mark: Mark
    text: str
    style: Style
    size: float = 6.6

    def lines(self, width: float) -> list[Line]:
        if not self.text:
            return [Line(self.style.leading, ink=Figure(self._alone, self.mark.value.word))]
        inset = self.size + 4.0
        first, *rest = Words(self.text, self.style, indent=inset).lines(width)
        return [first._replace(ink=Ornament(self._beside)), *rest]

    def _beside(self, canvas: Any, left: float, top: float, width: float) -> None:
        draw_mark(canvas, mark=self.mark, x=left, y=top - (self.style.leading + self.size) / 2, size=self.size)

    def _alone(self, canvas: Any, left: float, top: float, width: float) -> None:
        middle = left + (width - self.size) / 2
        draw_mark(canvas, mark=self.mark, x=middle, y=top - (self.style.leading + self.size) / 2, size=self.size)
