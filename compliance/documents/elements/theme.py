"""Paper, colours and type styles: the looks of every document."""

from __future__ import annotations

from typing import Any, Literal

from reportlab.lib.colors import HexColor

from compliance.documents.page import faces
from compliance.record import record, replace
from compliance.report import pigments

Colour = Any
Align = Literal["left", "centre", "right"]

INK = HexColor(pigments.INK)
UMBER = HexColor(pigments.UMBER)
SLATE = HexColor(pigments.SLATE)
CLAY = HexColor(pigments.CLAY)
OCHRE = HexColor(pigments.OCHRE)
LICHEN = HexColor(pigments.LICHEN)
CHALK = HexColor(pigments.CHALK)
SAND = HexColor(pigments.SAND)
ASH = HexColor(pigments.ASH)
PIGMENTS = {
    one: HexColor(one)
    for one in (pigments.ASH, pigments.CLAY, pigments.LICHEN, pigments.OCHRE, pigments.SLATE, pigments.UMBER)
}
"""Of the marks of outcomes, by their hexadecimal value."""


@record
class Paper:
    """A sheet with its margins, in points."""

    width: float
    height: float
    side: float = 54.0
    top: float = 66.0
    bottom: float = 62.0

    @property
    def body_width(self) -> float:
        return self.width - 2 * self.side

    @property
    def body_height(self) -> float:
        return self.height - self.top - self.bottom


PAPERS = {"letter": Paper(612.0, 792.0), "a4": Paper(595.276, 841.89)}
_SHEETS = {
    "11x17": (1224.0, 792.0), "18x24": (1728.0, 1296.0), "24x36": (2592.0, 1728.0), "a3": (1190.551, 841.89),
    "a2": (1683.78, 1190.551),
}  # fmt: skip
"""Sizes of sheets of drawings on their long side, in points."""
_SHEET_OF = {"letter": "11x17", "a4": "a3"}


def drawn_on(paper: str, sheet: str | None) -> Paper:
    """The sheets of drawings of a project, by its `paper` where it names no `sheet`."""
    width, height = _SHEETS[sheet or _SHEET_OF[paper]]
    return Paper(width, height, side=36.0, top=36.0, bottom=36.0)


@record
class Style:
    """How a text is set: sizes in points."""

    face: str
    size: float
    leading: float
    colour: Colour = INK
    align: Align = "left"

    def aligned(self, align: Align) -> Style:
        return replace(self, align=align)

    @property
    def baseline(self) -> float:
        """From the top of a line down to its baseline, capitals standing in the middle."""
        return (self.leading + 0.698 * self.size) / 2


BODY = Style(faces.TEXT, 10.0, 13.2)
BODY_BOLD = Style(faces.TEXT_BOLD, 10.0, 13.2)
SMALL = Style(faces.TEXT, 8.0, 10.8)
SMALL_ITALIC = Style(faces.TEXT_ITALIC, 8.0, 10.8, UMBER)
SOURCE = Style(faces.TEXT_ITALIC, 8.0, 10.4, UMBER)
CALCULATION = Style(faces.TEXT, 9.0, 12.0)
WORKED_LINE = Style(faces.TEXT, 9.0, 11.2)
WORKED_NUMBER = Style(faces.NARROW, 9.0, 11.2, align="right")
WORKED_RESULT = Style(faces.NARROW_MEDIUM, 9.0, 11.2, align="right")
CELL = Style(faces.NARROW, 9.0, 11.0)
CELL_BOLD = Style(faces.NARROW_BOLD, 9.0, 11.0)
CELL_SMALL = Style(faces.NARROW, 8.0, 10.0, UMBER)
NUMBER = CELL.aligned("right")
HEADING = Style(faces.NARROW_BOLD, 8.0, 9.6, UMBER)
LABEL = Style(faces.NARROW_MEDIUM, 8.4, 11.0, UMBER)
LABEL_OF_BODY = Style(faces.NARROW_MEDIUM, 8.4, 13.2, UMBER)
SUBSECTION = Style(faces.TEXT_BOLD, 12.0, 16.0, UMBER)
SECTION = Style(faces.TEXT_BOLD, 18.0, 23.0)
COVER_TITLE = Style(faces.TEXT_BOLD, 27.0, 32.0)
COVER_LINE = Style(faces.TEXT, 11.5, 16.0, UMBER)
FIGURE = Style(faces.TEXT_BOLD, 20.0, 24.0)
