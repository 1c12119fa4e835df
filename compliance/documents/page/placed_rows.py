"""Rows broken into lines: how they are drawn, and how a row too tall for a page is cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import takewhile
from typing import Any

from compliance.documents.page.faces import em_width
from compliance.documents.page.line_breaking import Line
from compliance.documents.page.rows import GAP, Anchor, Cell, Row
from compliance.documents.tagging.slots import Slot
from compliance.documents.tagging.structure_tree import Element
from compliance.documents.tagging.tagged_canvas import DECORATION, END
from compliance.record import record


@record
class _Box:
    left: float
    width: float
    source: Cell
    lines: list[Line]

    @property
    def height(self) -> float:
        return sum(line.height for line in self.lines)


@dataclass(slots=True)
class PlacedRow:
    """A row with its cells broken into lines. `rest` marks the lower part of a row that was cut."""

    source: Row
    boxes: list[_Box]
    rest: bool = False
    height: float = field(init=False)

    def __post_init__(self) -> None:
        self.height = sum(self.source.air) + max((box.height for box in self.boxes), default=0.0)

    def draw(self, canvas: Any, text: TextRun, top: float, slots: Sequence[Slot] = ()) -> float:
        """Draw with the upper edge at `top`, the text into `text`; gives the lower edge. `slots` are where the cells go
        in the structure; without them the row repeats what was read before. A link to a place that the document lacks
        is left out, so that a section can stand in several documents."""
        bottom = top - self.height
        anchor = None if self.rest else self.source.anchor
        if anchor:
            canvas.bookmarkHorizontal(anchor.key, 0, top + 14)
        for index, box in enumerate(self.boxes):
            slot = slots[index] if slots else None
            if box.source.link in canvas.places:
                area = (box.left - GAP, bottom, box.left + box.width + GAP, top)
                slot = canvas.linked(box.source.link, area, slot)
            _draw_box(
                canvas, text=text, box=box, y=top - self.source.air[0], slot=slot, anchor=anchor if not index else None
            )
        return bottom

    def cut(self, room: float) -> tuple[PlacedRow, PlacedRow] | None:
        """The lines that fit into `room`, and the rest; None where not one line fits."""
        upper, lower = [], []
        for box in self.boxes:
            count, left = 0, room - sum(self.source.air)
            while count < len(box.lines) and (left := left - box.lines[count].height) >= 0:
                count += 1
            upper.append(_Box(box.left, box.width, box.source, box.lines[:count]))
            lower.append(_Box(box.left, box.width, box.source, box.lines[count:]))
        if not any(box.lines for box in upper):
            return None
        return PlacedRow(self.source, upper, self.rest), PlacedRow(self.source, lower, rest=True)


def _draw_box(canvas: Any, text: TextRun, box: _Box, y: float, slot: Slot | None, anchor: Anchor | None) -> None:
    """The lines of a cell. Of one with a bookmark the first lines, as far as they are set alike, are its heading; a
    picture without text is."""
    head, left = None, 0
    if slot and anchor and anchor.title:
        styles = [line.style for line in box.lines if line.text]
        head = canvas.structure.heading(slot.holder, anchor.title, anchor.level)
        left = sum(1 for _ in takewhile(lambda style: style is styles[0], styles))
        slot = slot if left else Slot(head)
    last = box.lines[-1] if box.lines else None
    for line in box.lines:
        if line.ink:
            text.close()
            canvas.ink(line.ink, slot, box.left, y, box.width, line.height)
        if line.text:
            text.begin(head if left > 0 else canvas.text_of(slot) if slot else None)
            text.put(line, left=box.left, top=y, width=box.width, goes_on=line is not last)
            left -= 1
        y -= line.height
    text.close()


class TextRun:
    """The text of one part of a sheet as one object of the page: face and colour are set only where they change. What
    is put between `begin` and `close` belongs to an element of the structure, or to none."""

    def __init__(self, canvas: Any) -> None:
        self._canvas, self._text = canvas, canvas.beginText()
        self._open = False
        self._of: Element | None = None
        self._face: tuple[str, float] | None = None
        self._colour: Any = None

    def put(self, line: Line, left: float, top: float, width: float, goes_on: bool = False) -> None:
        """One line whose upper edge is at `top`. Where the text goes on, a blank ends the last word for whoever has it
        read out."""
        style = line.style
        assert style
        if self._face != (line.face, style.size):
            self._face = (line.face, style.size)
            self._text.setFont(line.face, style.size, style.leading)
        if self._colour is not style.colour:
            self._colour = style.colour
            self._text.setFillColor(style.colour)
        x = left + line.indent
        if style.align != "left":
            slack = width - line.indent - line.clear - em_width(line.text, line.face) * style.size
            x += slack if style.align == "right" else slack / 2
        words = self._text._formatText(f"{line.text} " if goes_on and not line.cut else line.text)
        self._text._code.append(f"1 0 0 1 {x:.2f} {top - style.baseline:.2f} Tm {words}")

    def begin(self, element: Element | None) -> None:
        if self._open and self._of is element:
            return
        self.close()
        self._open, self._of = True, element
        self._text._code.append(self._canvas.opening(element) if element else DECORATION)

    def close(self) -> None:
        if self._open:
            self._text._code.append(END)
            self._open = False

    def end(self) -> None:
        if self._face:
            self._canvas.drawText(self._text)


@dataclass(slots=True)
class Group:
    """Rows that stay together."""

    rows: list[PlacedRow]

    @property
    def height(self) -> float:
        return sum(row.height for row in self.rows)


def place_row(row: Row, widths: Sequence[float], flush: bool = True) -> PlacedRow:
    """Break the cells of a row into lines. `flush`: no gap at the outer edges of the sheet."""
    boxes, index, x = [], 0, 0.0
    for one in row.cells:
        across = sum(widths[index : index + one.span])
        before = 0.0 if flush and index == 0 else GAP
        index += one.span
        after = 0.0 if flush and index == len(widths) else GAP
        room = across - before - after
        lines = [line for part in one.parts for line in part.lines(room)]
        boxes.append(_Box(x + before, room, one, lines))
        x += across
    return PlacedRow(row, boxes)


def groups_of(rows: Sequence[PlacedRow]) -> list[Group]:
    groups: list[Group] = []
    for row in rows:
        if groups and row.source.joined:
            groups[-1].rows.append(row)
        else:
            groups.append(Group([row]))
    return groups


def torn(group: Group, room: float) -> tuple[Group, Group]:
    """Cut a group that no page can hold: whole rows first, then lines of the row that does not fit."""
    upper: list[PlacedRow] = []
    for index, row in enumerate(group.rows):
        if row.height <= room:
            upper.append(row)
            room -= row.height
            continue
        parts = row.cut(room)
        if parts is None:
            return Group(upper), Group(group.rows[index:])
        return Group([*upper, parts[0]]), Group([parts[1], *group.rows[index + 1 :]])
    return Group(upper), Group([])
