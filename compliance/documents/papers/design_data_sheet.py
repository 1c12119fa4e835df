"""The design data sheet: loads, site and climate as construction documents show them, two groups beside each other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, title
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell
from compliance.documents.page.sheet import Sheet
from compliance.report.design_data import DesignGroup, DesignItem, design_data

_INTRODUCTION = (
    "Every item is shown, whether or not it governs. Values are those the project gives, as read from the office's "
    "criteria; the office confirms them for the lot. ASD: allowable-stress level."
)
COLUMNS = (Column(share=4), Column(share=3), Column(share=4), Column(share=3))


def design_data_sheet(checked: Checked) -> list[Any]:
    lead = title("design-data", "Design data", _INTRODUCTION)
    return [*on_this_page(), Sheet(COLUMNS, design_rows(checked), lead=lead, below=12)]


def design_rows(checked: Checked) -> list[Row]:
    """Two groups beside each other, each with its clause."""
    groups = design_data(checked)
    half = -(-len(groups) // 2)
    left, right = groups[:half], groups[half:]
    return [row for pair in zip_longest(left, right) for row in _pair(*pair)]


def _pair(left: DesignGroup, right: DesignGroup | None) -> Iterator[Row]:
    heads = [_heading(left), _heading(right) if right else Cell((), span=2)]
    yield Row(tuple(heads), ruled=True, air=(6.0, 1.0))
    beside = right.items if right else ()
    for one, other in zip_longest(left.items, beside):
        yield Row((*_item(one), *_item(other)), joined=True, air=(1.2, 1.4))


def _heading(group: DesignGroup) -> Cell:
    return Cell((Words(group.title, theme.CELL_BOLD), Words(group.clause, theme.CELL_SMALL)), span=2)


def _item(item: DesignItem | None) -> tuple[Cell, Cell]:
    if item is None:
        return Cell(()), Cell(())
    return cell(item.label), cell(item.value, theme.CELL_BOLD if item.known else theme.CELL_SMALL)
