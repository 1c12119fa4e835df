"""The first sheet of the drawings: what is on which sheet, the design data, abbreviations, and the cautions."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import zip_longest
from typing import Any

from reportlab.platypus.doctemplate import FrameBreak

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part, title
from compliance.documents.elements.theme import Style
from compliance.documents.figures.drawing_block import DrawingBlock
from compliance.documents.figures.schedule_sheets import SCHEDULE
from compliance.documents.page.book import SheetSeries
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.page_refs import PageOf
from compliance.documents.page.prose import caution_paragraphs
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.papers.cover import part_index
from compliance.documents.papers.design_data_sheet import COLUMNS, design_rows
from compliance.drawings.common.lettering import LEAST, one_line

_INTRODUCTION = (
    "Drawn from the description of the building, to the scale named under each drawing; the bar stays right at any "
    "size. No survey and no design: field-verify dimensions."
)
_NOTHING = "No wall has a place in the plan, so that nothing is drawn."
_ABBREVIATIONS = (
    ("ASD", "allowable-stress design"), ("BRG", "bearing"), ("FTG", "footing"), ("MAX, MIN", "maximum, minimum"),
    ("N.T.S.", "not to scale"), ("O.C.", "on center"), ("T.O.", "top of"), ("TYP", "typical"),
    ("U.N.O.", "unless noted otherwise"),
)  # fmt: skip
_BESIDE = 3
_STYLES = (theme.CELL_BOLD, theme.CELL)
_CAUTION = Style(theme.SMALL.face, LEAST, 11.8)


def general_sheet(checked: Checked, drawn: Sequence[Any]) -> list[Any]:
    """The sheet for the `drawn` story of drawings."""
    blocks = [one for one in drawn if isinstance(one, DrawingBlock)]
    lead = title("drawings", "Drawings", _INTRODUCTION)
    story: list[Any] = [SheetSeries("G-0", "General: index and design data")]
    if blocks:
        tables = [row.anchor for one in drawn if isinstance(one, Sheet) for row in one.lead if row.anchor]
        rows = [_row(one.drawing.key, one.drawing.name) for one in blocks]
        rows += [_row(one.key, f"Schedule: {one.title}") for one in tables if one.key.startswith(SCHEDULE)]
        head = head_row("Drawing", "Sheet", right=(1,))
        story.append(Sheet((Column(share=1), Column(90)), rows, head=[head], lead=lead, below=8))
    else:
        story.append(Sheet((Column(share=1),), (), lead=[*lead, full_row(Words(_NOTHING, theme.BODY_BOLD))], below=8))
    story += [part_index("drawings"), *caution_paragraphs(_CAUTION), FrameBreak()]
    return [
        *story,
        Sheet(COLUMNS, design_rows(checked), lead=part("drawings-data", "Design data"), below=10),
        _abbreviations(),
    ]


def _row(key: str, title: str) -> Row:
    name = cell(one_line(title), link=key)
    return Row((name, Cell((PageOf(key, theme.NUMBER),), link=key)), air=(1.2, 1.4))


def _abbreviations() -> Sheet:
    deep = math.ceil(len(_ABBREVIATIONS) / _BESIDE)
    groups = [_ABBREVIATIONS[start : start + deep] for start in range(0, len(_ABBREVIATIONS), deep)]
    across = zip_longest(*groups, fillvalue=("", ""))
    rows = [
        Row(tuple(cell(text, style) for one in pair for text, style in zip(one, _STYLES, strict=True)), air=(1.0, 1.2))
        for pair in across
    ]
    lead = part("drawings-abbreviations", "Abbreviations")
    return Sheet((Column(62), Column(share=1)) * _BESIDE, rows, lead=lead, below=8)
