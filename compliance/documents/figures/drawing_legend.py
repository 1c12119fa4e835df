"""What the signs, tones and lines of the drawings stand for, in rows as wide as the text."""

from __future__ import annotations

from typing import Any

from compliance.documents.elements import theme
from compliance.documents.figures.drawing_ink import ink, letters
from compliance.documents.page.inked import Figure
from compliance.documents.page.line_breaking import Drawn
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.primitives import Box, Drawing, Filled, Item, Lettering, Pen, Sign, Stroke, Tone
from compliance.drawings.elevation.elevation_labels import HELD, NOT_HELD
from compliance.record import record
from compliance.report.marks import Mark

_SWATCH, _HIGH = 18.0, 10.0
_BESIDE, _BETWEEN, _ROW = 3.5, 9.0, 14.5
_ENTRIES: tuple[tuple[Tone | Pen | str, str], ...] = (
    (Tone.EARTH, "earth"),
    (Tone.BAND, "supporting wall"),
    (Tone.MASONRY, "stone, brick, block"),
    (Tone.CONCRETE, "concrete"),
    (Tone.RUBBLE, "rubble"),
    (Tone.WOOD, "wood"),
    (Tone.FINISH, "finish"),
    (HELD, "lateral support that counts"),
    (NOT_HELD, "one that does not count"),
    (Mark.REVISE.name, "limit passed: revise"),
    (Mark.ENGINEER.name, "limit passed: engineer"),
    (Pen.CUT, "cut, ground"),
    (Pen.HIDDEN, "hidden, below ground"),
    (Pen.BREAK, "centerline"),
)


@record
class _Placed:
    x: float
    row: int
    what: Tone | Pen | str
    text: str


def legend(width: float) -> Drawn:
    """The legend as a part of a row."""
    places, x, row = [], 0.0, 0
    for what, text in _ENTRIES:
        wide = _SWATCH + _BESIDE + letters(text, Role.NOTE)
        if x and x + wide > width:
            x, row = 0.0, row + 1
        places.append(_Placed(x, row, what, text))
        x += wide + _BETWEEN
    height = (row + 1) * _ROW + 4.0
    drawing = Drawing(
        "",
        name="",
        scale=None,
        width=width,
        height=height,
        items=tuple(item for one in places for item in _items(one, height)),
    )

    def draw(canvas: Any, left: float, top: float, room: float) -> None:
        canvas.saveState()
        canvas.translate(left, top - height)
        canvas.setFillColor(theme.INK)
        ink(canvas, drawing)
        canvas.restoreState()

    return Drawn(
        height,
        Figure(draw, f"Legend of the drawings. Signs, patterns and lines: {', '.join(text for _, text in _ENTRIES)}."),
    )


def _items(one: _Placed, height: float) -> list[Item]:
    low = height - (one.row + 1) * _ROW + 1.0
    box = Box(one.x, low, one.x + _SWATCH, low + _HIGH)
    corners = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
    left = box.right + _BESIDE
    text = Lettering(one.text, Box(left, low, left + letters(one.text, Role.NOTE), low + Role.NOTE.height), Role.NOTE)
    if isinstance(one.what, Tone):
        return [Filled(corners, one.what), Stroke(corners, Pen.FINE, closed=True), text]
    if isinstance(one.what, Pen):
        middle = low + _HIGH / 2
        return [Stroke(((box.left, middle), (box.right, middle)), one.what), text]
    side = 5.4
    x, y = box.left + (_SWATCH - side) / 2, low + (_HIGH - side) / 2
    return [Sign(one.what, Box(x, y, x + side, y + side)), text]
