"""Rows of a sheet as they are described: columns, cells, and the places that contents and bookmarks lead to."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.documents.elements import theme
from compliance.documents.elements.theme import Style
from compliance.documents.page.line_breaking import Part, Words
from compliance.record import record, replace

GAP = 4.0
"""Between the edge of a column and its text, in points."""
_ABOVE, _BELOW = 2.4, 2.8


@record
class Column:
    """A column of a fixed width in points, or with a share of the width that is left, or after its contents."""

    width: float = 0.0
    share: float = 0.0
    natural: bool = False


@record
class Cell:
    """Parts set one under the other across `span` columns. `link` names the place a click leads to."""

    parts: tuple[Part, ...]
    span: int = 1
    link: str = ""


@record
class Anchor:
    """A place that links lead to. With a title it is a bookmark too: level 0 is a section. Contents list a bookmark
    of level 0 or 1 unless it is not `listed`."""

    key: str
    title: str = ""
    level: int = 0
    listed: bool = True


@record
class Row:
    """`joined` keeps the row with the one above; `ruled` draws a line under it; `air` is added above and below.
    `named` is what the row belongs to, written above it where a page begins with it."""

    cells: tuple[Cell, ...]
    joined: bool = False
    ruled: bool = True
    anchor: Anchor | None = None
    air: tuple[float, float] = (_ABOVE, _BELOW)
    named: str = ""


def cell(text: str, style: Style = theme.CELL, span: int = 1, link: str = "") -> Cell:
    return Cell((Words(text, style),), span=span, link=link)


def head_row(*titles: str, right: Sequence[int] = ()) -> Row:
    """A row of column titles; `right` are the indexes of those set flush right."""
    styles = (theme.HEADING.aligned("right") if index in right else theme.HEADING for index in range(len(titles)))
    return Row(tuple(cell(title, style) for title, style in zip(titles, styles, strict=True)), ruled=False)


def lettered_row(row: Row, least: float) -> Row:
    """The row with no text set smaller than `least` points."""
    return replace(
        row, cells=tuple(replace(one, parts=tuple(_lettered(p, least) for p in one.parts)) for one in row.cells)
    )


def _lettered(part: Part, least: float) -> Part:
    style = getattr(part, "style", None)
    if style is None or style.size >= least:
        return part
    return replace(part, style=replace(style, size=least, leading=max(style.leading, 1.2 * least)))


def full_row(*parts: Part, anchor: Anchor | None = None, air: tuple[float, float] = (0.0, 0.0)) -> Row:
    """A row of one cell, for a lead: no line under it."""
    return Row((Cell(parts),), ruled=False, anchor=anchor, air=air)
