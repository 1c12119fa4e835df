"""How the findings stand as a strip of tiles for the cover, and the table of standings."""

from __future__ import annotations

from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import draw_mark
from compliance.documents.elements.section_titles import part
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Drawn, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.record import record
from compliance.report.marks import Mark
from compliance.report.tally import SHORT_WORDS, STANDINGS, counts

_TILE = 40.0


def standing(checked: Checked) -> Sheet:
    """One tile for each mark: the mark, how many findings have it, and its word."""
    tiles = [
        Cell((Drawn(_TILE - 12, Lettered(_Figure(mark, count).draw)), Words(SHORT_WORDS[mark], theme.LABEL)))
        for mark, count in counts(checked).items()
    ]
    columns = [Column(share=1.3 if mark is Mark.RESERVED else 1) for mark in Mark]
    lead = [full_row(Words("How the findings stand", theme.HEADING), air=(0.0, 2.0))]
    return Sheet(columns, [Row(tuple(tiles))], lead=lead)


@record
class _Figure:
    mark: Mark
    count: int

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        draw_mark(canvas, mark=self.mark, x=left, y=top - 19, size=11)
        canvas.setFillColor(theme.INK)
        canvas.setFont(theme.FIGURE.face, theme.FIGURE.size)
        canvas.drawString(left + 17, top - 20.5, f"{self.count} ")


def standings() -> Sheet:
    """What each standing of a limit means."""
    rows = [Row((cell(one.value, theme.CELL_BOLD), cell(meaning))) for one, meaning in STANDINGS.items()]
    words = "Every limit carries its standing: how well it is known. A finding carries the lowest it rests on."
    lead = part("first-standings", "Standing of limits", words)
    return Sheet((Column(84), Column(share=1)), rows, head=[head_row("Standing", "What it says")], lead=lead)
