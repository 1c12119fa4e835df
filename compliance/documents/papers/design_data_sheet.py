"""The design data sheet: loads, site and climate as construction documents show them, two groups beside each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, title
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell
from compliance.documents.page.sheet import Sheet
from compliance.report.summaries.design_data import DesignGroup, design_data, stands_alone

_INTRODUCTION = (
    "Every item is shown, whether or not it governs. Values are those the project gives, as read from the office's "
    "criteria; the office confirms them for the lot. ASD: allowable-stress level."
)
_ALONE = (
    "The walls stand alone: no roof and no load on them is described, so that loads of a building are left out. The "
    "office confirms the values for the lot. ASD: allowable-stress level."
)
_RIGHT = ("Earthquake", "Soil, flood, rain")
COLUMNS = (Column(share=4), Column(share=3), Column(share=4), Column(share=3))


def design_data_sheet(checked: Checked) -> list[Any]:
    lead = title("design-data", "Design data", _ALONE if stands_alone(checked) else _INTRODUCTION)
    return [*on_this_page(), Sheet(COLUMNS, design_rows(checked), lead=lead, below=12)]


def design_rows(checked: Checked) -> list[Row]:
    """The groups in two columns, each under its clause."""
    groups = design_data(checked)
    right = [one for one in groups if one.title in _RIGHT]
    left = [one for one in groups if one.title not in _RIGHT]
    pairs = list(zip_longest(_lines(left), _lines(right), fillvalue=(Cell((), span=2),)))
    below_head = [False, *(any(half[0].span == 2 and half[0].parts for half in pair) for pair in pairs)]
    return [
        Row((*one, *other), air=(1.2, 1.4), joined=head) for (one, other), head in zip(pairs, below_head, strict=False)
    ]


def _lines(groups: Sequence[DesignGroup]) -> Iterator[tuple[Cell, ...]]:
    """The cells of one column, line by line."""
    for group in groups:
        yield (Cell((Words(group.title, theme.BODY_BOLD), Words(group.clause, theme.CELL_SMALL)), span=2),)
        for item in group.items:
            yield cell(item.label), cell(item.value, theme.CELL_BOLD if item.known else theme.CELL_SMALL)
