"""Ruled tables and running text of a document, laid out once and cut at page ends between groups of rows.

A sheet has a lead (a title and what introduces the rows, drawn once, never parted from the first rows), a head
(repeated on each page) and rows. On later pages `carried` stands in place of the lead, or what the first row there
belongs to. A row that is joined stays with the row above it. What is taller than a page is cut inside, between lines,
and so is what would leave much of a page empty.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from reportlab.platypus.flowables import Flowable

from compliance.documents.elements import theme
from compliance.documents.elements.theme import Colour
from compliance.documents.page.column_widths import columns_fitted, decimals_aligned, with_places
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.placed_rows import Group, PlacedRow, TextRun, groups_of, place_row, torn
from compliance.documents.page.rows import GAP, Anchor, Column, Row, full_row, lettered_row
from compliance.documents.tagging.slots import slots

_FEWEST_FOR_TEARING = 90.0
_MOST_LEFT_EMPTY = 150.0


@dataclass(slots=True)
class _Layout:
    widths: list[float]
    available: float
    lead: list[PlacedRow]
    carried: list[PlacedRow]
    head: list[PlacedRow]
    groups: list[Group]
    has_rows: bool = True
    """More than one row is in the whole sheet, or a head: a row of tiles alone is read as paragraphs."""
    goes_on: bool = False
    """The lead repeats what was read on a page before."""

    @property
    def above(self) -> float:
        return sum(row.height for row in (*self.lead, *self.head))

    @property
    def height(self) -> float:
        return self.above + sum(group.height for group in self.groups)

    @property
    def is_table(self) -> bool:
        return bool(self.groups) and self.has_rows and (len(self.widths) > 1 or bool(self.head))

    def part(self, lead: list[PlacedRow], groups: list[Group], goes_on: bool) -> _Layout:
        return _Layout(
            self.widths,
            available=self.available,
            lead=lead,
            carried=self.carried,
            head=self.head if groups else [],
            groups=groups,
            has_rows=self.has_rows,
            goes_on=goes_on,
        )


class Sheet(Flowable):  # type: ignore[misc]
    """A table, or running text where it has a lead only. `grid` rules between columns too."""

    def __init__(
        self,
        columns: Sequence[Column],
        rows: Sequence[Row],
        head: Sequence[Row] = (),
        lead: Sequence[Row] = (),
        carried: Sequence[Row] = (),
        grid: bool = False,
        below: float = 10.0,
    ) -> None:
        super().__init__()
        self._columns, self._rows, self._head, self.lead, self._carried = columns, rows, head, lead, carried
        self._grid, self._whole = grid, self
        self.spaceAfter = below
        self._layout: _Layout | None = None

    def lettered(self, least: float) -> Sheet:
        """The same with no text set smaller than `least` points."""
        rows, head, lead, carried = (
            [lettered_row(one, least) for one in group] for group in (self._rows, self._head, self.lead, self._carried)
        )
        return Sheet(self._columns, rows, head=head, lead=lead, carried=carried, grid=self._grid, below=self.spaceAfter)

    def with_natural_columns(self) -> Sheet:
        """The same with every column after its contents."""
        columns = [Column(natural=True)] * len(self._columns)
        parts = {"head": self._head, "lead": self.lead, "carried": self._carried}
        return Sheet(columns, self._rows, **parts, grid=self._grid, below=self.spaceAfter)

    def breaks_words(self, width: float) -> bool:
        """Whether some word of its table is too long for its column where the sheet is so wide."""
        self.wrap(width, 1e6)
        assert self._layout
        rows = [*self._layout.head, *(row for group in self._layout.groups for row in group.rows)]
        return any(line.cut for row in rows for box in row.boxes for line in box.lines)

    @property
    def described(self) -> list[Row]:
        """Its lead and its rows, as they were given."""
        return [*self.lead, *self._rows]

    @property
    def anchors(self) -> list[Anchor]:
        """The bookmarks that were drawn here."""
        return [anchor for anchor in self._all_anchors if anchor.title]

    @property
    def places(self) -> list[str]:
        """The keys of all places that were drawn here, bookmarks or not."""
        return [anchor.key for anchor in self._all_anchors]

    @property
    def _all_anchors(self) -> list[Anchor]:
        assert self._layout
        rows = [*self._layout.lead, *(row for group in self._layout.groups for row in group.rows)]
        return [anchor for row in rows if (anchor := row.source.anchor) and not row.rest]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        if self._layout is None or self._layout.available != width:
            flush, whole = not self._grid, [width]
            widths, rows = self._fitted(width)
            self._layout = _Layout(
                widths,
                available=width,
                lead=[place_row(row, whole) for row in self.lead],
                carried=[place_row(row, whole) for row in self._carried],
                head=[place_row(row, widths, flush) for row in self._head],
                groups=groups_of([place_row(row, widths, flush) for row in rows]),
                has_rows=len(self._rows) > 1 or bool(self._head),
            )
        self.width, self.height = width, self._layout.height
        return width, self.height

    def _fitted(self, width: float) -> tuple[list[float], Sequence[Row]]:
        """The widths of the columns, and the rows with the numbers of a column aligned where it has the room."""
        found = decimals_aligned(self._rows, len(self._columns))
        rows = with_places(self._rows, (places for _, places in found.values()))
        widths = columns_fitted(self._columns, width, (*self._head, *rows))
        fit = [places for index, (room, places) in found.items() if room <= widths[index] - 2 * GAP]
        return widths, rows if len(fit) == len(found) else with_places(self._rows, fit)

    def split(self, width: float, height: float) -> list[Sheet]:
        self.wrap(width, height)
        layout = self._layout
        assert layout
        page: float = self._frame._aH
        if layout.lead and layout.above + _FEWEST_FOR_TEARING > page:
            return self._lead_alone(layout, width, height)
        room = height - layout.above
        count = 0
        while count < len(layout.groups) and layout.groups[count].height <= room:
            room -= layout.groups[count].height
            count += 1
        upper, lower = layout.groups[:count], layout.groups[count:]
        if not lower:
            return []
        taller_than_page = not count and layout.above + lower[0].height > page
        if room >= _MOST_LEFT_EMPTY or (taller_than_page and room >= _FEWEST_FOR_TEARING):
            first, rest = torn(lower[0], room)
            upper, lower = [*upper, *([first] if first.rows else [])], [rest, *lower[1:]]
        carried = layout.carried or _belonging(lower[0].rows[0], width)
        return [self._part(layout.lead, upper, layout.goes_on), self._part(carried, lower, True)] if upper else []

    def _lead_alone(self, layout: _Layout, width: float, height: float) -> list[Sheet]:
        """A lead nearly as tall as a page runs as rows of its own."""
        lead = self._part([], [Group([row]) for row in layout.lead])
        lead._layout.head, lead._layout.carried = [], []
        lead._layout.widths = [sum(layout.widths)]  # running text, no table
        lead._frame = self._frame
        lead.wrap(width, height)
        parts = [lead] if lead.height <= height else lead.split(width, height)
        return [*parts, self._part(layout.carried, layout.groups, True)] if parts else []

    def _part(self, lead: list[PlacedRow], groups: list[Group], goes_on: bool = False) -> Any:
        assert self._layout
        part = Sheet(self._columns, (), grid=self._grid, below=self.spaceAfter)
        part._layout, part._whole = self._layout.part(lead, groups, goes_on), self._whole
        return part

    def draw(self) -> None:
        layout, canvas = self._layout, self.canv
        assert layout
        if getattr(canvas, "only_counts", False):
            return
        text, across, y = TextRun(canvas), sum(layout.widths), self.height
        for row in layout.lead:
            y = row.draw(canvas, text, y, () if layout.goes_on else slots(canvas, row))
        heavy = [y]
        table, begun = canvas.table_of(self._whole) if layout.is_table else (None, False)
        for row in layout.head:
            y = row.draw(canvas, text, y, () if begun else slots(canvas, row, table, "TH"))
        heavy.append(y)
        top, light = y, []
        for group in layout.groups:
            for row in group.rows:
                y = row.draw(canvas, text, y, slots(canvas, row, table, names_row=not layout.head))
                light += [y] if row.source.ruled else []
        text.end()
        canvas.begin_decoration()
        _rules(canvas, width=across, heights=light, colour=theme.SAND, weight=0.4)
        if layout.head:
            _rules(canvas, width=across, heights=heavy, colour=theme.UMBER, weight=0.7)
        if self._grid and layout.groups:
            self._draw_grid(canvas, layout, top, y)
        canvas.end()

    def _draw_grid(self, canvas: Any, layout: _Layout, top: float, bottom: float) -> None:
        canvas.setStrokeColor(theme.SAND)
        canvas.setLineWidth(0.4)
        x = 0.0
        for width in layout.widths:
            x += width
            canvas.line(x, top, x, bottom)


def _belonging(row: PlacedRow, width: float) -> list[PlacedRow]:
    """What a page begins with where its first row belongs to something named further up."""
    named = row.source.named
    return [place_row(full_row(Words(f"{named}, continued", theme.CELL_BOLD, after=2.0)), [width])] if named else []


def _rules(canvas: Any, width: float, heights: list[float], colour: Colour, weight: float) -> None:
    if heights:
        canvas.setStrokeColor(colour)
        canvas.setLineWidth(weight)
        canvas.lines([(0, y, width, y) for y in heights])
