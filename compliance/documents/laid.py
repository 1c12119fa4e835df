"""Rows broken into lines: how they are drawn, and how a row too tall for a page is cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from compliance.documents.faces import em_width
from compliance.documents.rows import GAP, Cell, Row
from compliance.documents.words import Line
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
class Laid:
    """A row with its cells broken into lines. `rest` marks the lower part of a row that was cut."""

    source: Row
    boxes: list[_Box]
    rest: bool = False
    height: float = field(init=False)

    def __post_init__(self) -> None:
        self.height = sum(self.source.air) + max((box.height for box in self.boxes), default=0.0)

    def draw(self, canvas: Any, text: TextRun, top: float) -> float:
        """Draw with the upper edge at `top`, the text into `text`; gives the lower edge. A link to a place that the
        document lacks is left out, so that a section can stand in several documents."""
        bottom = top - self.height
        anchor = self.source.anchor
        if anchor and not self.rest:
            canvas.bookmarkHorizontal(anchor.key, 0, top + 14)
        for box in self.boxes:
            if box.source.link in canvas.places:
                area = (box.left - GAP, bottom, box.left + box.width + GAP, top)
                canvas.linkRect("", box.source.link, area, relative=1)
            y = top - self.source.air[0]
            for line in box.lines:
                if line.draw:
                    line.draw(canvas, box.left, y, box.width)
                if line.text:
                    text.put(line, box.left, y, box.width)
                y -= line.height
        return bottom

    def cut(self, room: float) -> tuple[Laid, Laid] | None:
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
        return Laid(self.source, upper, self.rest), Laid(self.source, lower, rest=True)


class TextRun:
    """The text of one part of a sheet as one object of the page: face and colour are set only where they change."""

    def __init__(self, canvas: Any) -> None:
        self._canvas, self._text = canvas, canvas.beginText()
        self._face: tuple[str, float] | None = None
        self._colour: Any = None

    def put(self, line: Line, left: float, top: float, width: float) -> None:
        """One line whose upper edge is at `top`."""
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
            slack = width - line.indent - em_width(line.text, line.face) * style.size
            x += slack if style.align == "right" else slack / 2
        self._text.setTextOrigin(x, top - style.baseline)
        self._text.textLine(line.text)

    def end(self) -> None:
        if self._face:
            self._canvas.drawText(self._text)


@dataclass(slots=True)
class Group:
    """Rows that stay together."""

    rows: list[Laid]

    @property
    def height(self) -> float:
        return sum(row.height for row in self.rows)


def lay_row(row: Row, widths: Sequence[float], flush: bool = True) -> Laid:
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
    return Laid(row, boxes)


def groups_of(rows: Sequence[Laid]) -> list[Group]:
    groups: list[Group] = []
    for row in rows:
        if groups and row.source.joined:
            groups[-1].rows.append(row)
        else:
            groups.append(Group([row]))
    return groups


def torn(group: Group, room: float) -> tuple[Group, Group]:
    """Cut a group that no page can hold: whole rows first, then lines of the row that does not fit."""
    upper: list[Laid] = []
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
