"""The table of contents: sections and their parts with page numbers, found in the first pass."""

from __future__ import annotations

from typing import Any, NamedTuple

from reportlab.platypus.doctemplate import IndexingFlowable

from compliance.documents.elements import theme
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row
from compliance.documents.page.sheet import Sheet

_KEY = "contents"


class _Entry(NamedTuple):
    anchor: Anchor
    page: int


def in_contents(anchor: Anchor | None, deepest: int = 1) -> bool:
    """Whether contents down to the level `deepest` list it."""
    return anchor is not None and bool(anchor.title) and anchor.listed and anchor.level <= deepest


class Contents(IndexingFlowable):  # type: ignore[misc]
    """`expected` is the number of entries to leave room for in the first pass, so that the second is the last."""

    def __init__(self, expected: int, how_to_read: str = "", deepest: int = 1) -> None:
        super().__init__()
        self._how_to_read, self._deepest = how_to_read, deepest
        self._known = [_Entry(Anchor(_KEY, " "), 0)] * expected
        self._found: list[_Entry] = []
        self._sheet: Sheet | None = None
        self.spaceAfter = 12.0

    @property
    def anchors(self) -> list[Anchor]:
        return self._made().anchors

    @property
    def places(self) -> list[str]:
        return self._made().places

    def beforeBuild(self) -> None:  # noqa: N802
        if self._found:
            self._known, self._found = self._found, []
        self._sheet = None

    def notify(self, kind: str, stuff: Any) -> None:
        if kind == "entry" and in_contents(stuff[0], self._deepest):
            self._found.append(_Entry(*stuff))

    def isSatisfied(self) -> bool:  # noqa: N802
        return self._found == self._known

    def _made(self) -> Sheet:
        if self._sheet is None:
            title = Words("Contents", theme.SECTION, after=6.0)
            lead = [full_row(title, anchor=Anchor(_KEY, "Contents", listed=False))]
            if self._how_to_read:
                lead.append(full_row(Words(self._how_to_read, theme.SMALL, after=4.0)))
            self._sheet = Sheet(
                (Column(share=1), Column(40)), [_row(*entry) for entry in self._known], lead=lead, below=12
            )
        return self._sheet

    def wrap(self, width: float, height: float) -> Any:
        return self._made().wrap(width, height)

    def split(self, width: float, height: float) -> list[Any]:
        self._made()._frame = self._frame
        return self._made().split(width, height)

    def drawOn(self, canvas: Any, x: float, y: float, _sW: float = 0) -> None:  # noqa: N802, N803
        self._made().drawOn(canvas, x, y, _sW)


def _row(anchor: Anchor, page: int) -> Row:
    style = theme.BODY if anchor.level else theme.BODY_BOLD
    title = Cell((Words(anchor.title, style, indent=14.0 * anchor.level),), link=anchor.key)
    number = cell(str(page) if page else "", style.aligned("right"), link=anchor.key)
    return Row((title, number), ruled=not anchor.level, air=(1.3, 1.1))
