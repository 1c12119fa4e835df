"""How sections and their parts begin: the title with its bookmark, and the sentences under it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.platypus.flowables import CondPageBreak, PageBreak

from compliance.documents.elements import theme
from compliance.documents.page.inked import Ornament
from compliance.documents.page.line_breaking import Drawn, Words
from compliance.documents.page.rows import Anchor, Column, Row, full_row
from compliance.documents.page.sheet import Sheet

_TO_START_ON = 170.0
"""A section begins on the page it finds when this much of it is left, in points."""


def title(key: str, text: str, *sentences: str) -> list[Row]:
    """The title of a section and what is said under it, as the lead of its first sheet."""
    rows = [
        full_row(
            Drawn(3.0, Ornament(_bar)),
            Words(text, theme.SECTION, after=4.0),
            anchor=Anchor(key, text, 0),
            air=(6.0, 0.0),
        )
    ]
    return rows + [full_row(Words(sentence, theme.BODY, after=4.0)) for sentence in sentences]


def part(key: str, text: str, *sentences: str) -> list[Row]:
    """The title of a part of a section."""
    rows = [full_row(Words(text, theme.SUBSECTION, after=2.0), anchor=Anchor(key, text, 1), air=(6.0, 0.0))]
    return rows + [full_row(Words(sentence, theme.BODY, after=3.0)) for sentence in sentences]


def on_new_page() -> list[Any]:
    return [PageBreak()]


def on_this_page() -> list[Any]:
    """Go on where the last section ended, unless the page is nearly full."""
    return [CondPageBreak(_TO_START_ON)]


def running_text(rows: Sequence[Row], below: float = 8.0) -> Sheet:
    """Rows of one column without lines."""
    return Sheet((Column(share=1),), rows, below=below)


def _bar(canvas: Any, left: float, top: float, width: float) -> None:
    canvas.setFillColor(theme.OCHRE)
    canvas.rect(left, top - 3, 36, 3, stroke=0, fill=1)
