"""Rows broken into lines: how they are drawn, and how a row too tall for a page is cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from compliance.documents.faces import em_width
from compliance.documents.rows import GAP, Cell, Row
from compliance.documents.theme import Style
from compliance.documents.words import Line


@dataclass(frozen=True, slots=True)
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

    def draw(self, canvas: Any, top: float) -> float:
        """Draw with the upper edge at `top`; gives the lower edge."""
        bottom = top - self.height
        anchor = self.source.anchor
        if anchor and not self.rest:
            canvas.bookmarkHorizontal(anchor.key, 0, top + 14)
        for box in self.boxes:
            if box.source.link:
                area = (box.left - GAP, bottom, box.left + box.width + GAP, top)
                canvas.linkRect("", box.source.link, area, relative=1)
            _draw_lines(canvas, box, top - self.source.air[0])
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


def _draw_lines(canvas: Any, box: _Box, y: float) -> None:
    text = canvas.beginText()
    style: Style | None = None
    face = ""
    for line in box.lines:
        if line.draw:
            line.draw(canvas, box.left, y, box.width)
        if line.style and line.text:
            if line.style is not style or line.face != face:
                style, face = line.style, line.face
                text.setFont(face, style.size, style.leading)
                text.setFillColor(style.colour)
            x = box.left + line.indent
            if style.align != "left":
                slack = box.width - line.indent - em_width(line.text, face) * style.size
                x += slack if style.align == "right" else slack / 2
            text.setTextOrigin(x, y - style.baseline)
            text.textOut(line.text)
        y -= line.height
    if style:
        canvas.drawText(text)


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
