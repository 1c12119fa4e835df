"""What all field sheets share: a title, what to do, and a ruled table to write in by hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import title
from compliance.documents.page.inked import Ornament
from compliance.documents.page.line_breaking import Drawn, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.record import record

_TALL = 22.0
"""Of a row to write in by hand, in points."""


@record
class BlankColumn:
    """A column by its title; `share` is how wide it is beside the others."""

    title: str
    share: float = 1.0


def blank_table(
    columns: Sequence[BlankColumn], known: Sequence[Sequence[str]], blanks: int, lead: Sequence[Row] = (),
) -> Sheet:  # fmt: skip
    """Rows of what is known, with room to write what is not; then `blanks` empty rows. A row of `known` may be shorter
    than the columns: the rest is empty."""
    rows = [*known, *([""] for _ in range(blanks))]
    return Sheet(
        [Column(share=one.share) for one in columns],
        [_row([*row, *[""] * (len(columns) - len(row))]) for row in rows],
        head=[head_row(*(one.title for one in columns))],
        lead=lead,
        grid=True,
        below=10,
    )


def _row(texts: Sequence[str]) -> Row:
    return Row(tuple(cell(text, theme.CELL_BOLD) if text else _empty() for text in texts), air=(3.0, 3.0))


def _empty() -> Cell:
    return Cell((Drawn(_TALL - 6, Ornament(_nothing)),))


def _nothing(canvas: Any, left: float, top: float, width: float) -> None:
    """Room to write in."""


def sheet_title(key: str, text: str, *sentences: str) -> list[Row]:
    """With lines for who and when, as every sheet has them."""
    who = cell("By: ____________________________  ·  On: ______________  ·  Where: ____________________________",
               theme.BODY)  # fmt: skip
    return [*title(key, text, *sentences), Row((who,), ruled=False, air=(4.0, 8.0))]


def notes(*texts: str) -> list[Row]:
    return [full_row(Words(text, theme.SMALL, after=2.0)) for text in texts]
