"""Labels to tie on specimens: the mark large, then set, mix, day of casting and the day from which it may be tested."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import title
from compliance.documents.lab_request.waiting_specimens import Planned, PlannedSet
from compliance.documents.page.faces import NARROW, NARROW_MEDIUM, TEXT_BOLD, clean, face_for, text_width
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Line, Words, shortened
from compliance.documents.page.rows import Cell, Column, Row, full_row
from compliance.documents.page.sheet import Sheet
from compliance.record import record

_TALL, _ACROSS = 86.0, 3
_PAD = 8.0
_HOLE = 5.0
_BIG, _LEAST_BIG, _SMALL = 21.0, 9.0, 8.4
_BLANK = "____________"


@record
class Tie:
    """One label. `project` is the name of the building."""

    project: str
    of: PlannedSet
    specimen: Planned

    def lines(self, width: float) -> list[Line]:
        return [Line(_TALL, ink=Lettered(self._draw))]

    def texts(self) -> list[str]:
        """The lines under the mark."""
        row = self.specimen.row
        cast = row.cast.isoformat() if row and row.cast else _BLANK
        due = self.specimen.due.isoformat() if self.specimen.due else _BLANK
        batch = f"  ·  batch {row.batch}" if row and row.batch else ""
        return [
            f"set {self.of.mark}  ·  {self.of.test.kind}",
            f"mix {self.of.test.mix}{batch}",
            f"cast {cast}",
            f"test from {due}",
        ]

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        canvas.setStrokeColor(theme.ASH)
        canvas.setLineWidth(0.5)
        canvas.setDash(3, 2)
        canvas.rect(left, top - _TALL, width, _TALL, stroke=1, fill=0)
        canvas.setDash()
        canvas.circle(left + _PAD + _HOLE, top - _TALL / 2, _HOLE, stroke=1, fill=0)
        x = left + 2 * _PAD + 2 * _HOLE
        room = width - 3 * _PAD - 2 * _HOLE
        canvas.setFillColor(theme.INK)
        y = self._mark(canvas, x, top - _PAD, room)
        for text in self.texts():
            y -= _SMALL * 1.32
            _put(canvas, text=text, wanted=NARROW, x=x, y=y, room=room)
        _put(canvas, text=self.project, wanted=NARROW_MEDIUM, x=x, y=top - _TALL + 5, room=room)

    def _mark(self, canvas: Any, x: float, top: float, room: float) -> float:
        """As large as fits into one line."""
        text = clean(self.specimen.mark).replace("\n", " ")
        face = face_for(text, TEXT_BOLD)
        size = max(_LEAST_BIG, min(_BIG, room / max(text_width(text, face, 1.0), 1e-6)))
        canvas.setFont(face, size)
        y = top - 0.75 * _BIG
        canvas.drawString(x, y, f"{shortened(text, face, size, room)} ")
        return y - 1


def _put(canvas: Any, text: str, wanted: str, x: float, y: float, room: float) -> None:
    text = clean(text).replace("\n", " ")
    face = face_for(text, wanted)
    canvas.setFont(face, _SMALL)
    canvas.drawString(x, y, f"{shortened(text, face, _SMALL, room)} ")


def label_sheet(project: str, sets: Sequence[PlannedSet]) -> Sheet:
    """A label for each specimen, three in a row, to cut along the dashed lines."""
    labels = [Cell((Tie(project, of, one),)) for of in sets for one in of.specimens]
    labels += [Cell(())] * (-len(labels) % _ACROSS)
    rows = [
        Row(tuple(labels[start : start + _ACROSS]), ruled=False, air=(3.0, 3.0))
        for start in range(0, len(labels), _ACROSS)
    ]
    words = "Cut out, punch, and tie to the specimen on the day it is cast. A specimen without its mark proves nothing."
    lead = [*title("labels", "Labels"), full_row(Words(words, theme.SMALL, after=4.0))]
    return Sheet([Column(share=1)] * _ACROSS, rows, lead=lead)
