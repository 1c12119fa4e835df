"""What stands on each page of the body: project and section above, caution, revision and page number below."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from compliance.documents.elements import theme
from compliance.documents.page.faces import NARROW, NARROW_MEDIUM, TEXT_BOLD, face_for, text_width
from compliance.documents.page.line_breaking import shortened
from compliance.documents.tagging.tagged_canvas import RUNNING

if TYPE_CHECKING:
    from compliance.documents.page.book import Book

_SIZE = 8.4
_SMALL = 8.0


def draw(canvas: Any, book: Book) -> None:
    """Draw the running lines of one page."""
    paper = book.paper
    left, right = paper.side, paper.width - paper.side
    canvas.begin_decoration(RUNNING)
    _above(canvas, book=book, left=left, right=right, y=paper.height - 38)
    _below(canvas, book=book, left=left, right=right, y=46)
    canvas.end()


def _above(canvas: Any, book: Book, left: float, right: float, y: float) -> None:
    half = (right - left) * 0.62
    _put(canvas, text=book.head.project, face=TEXT_BOLD, size=_SIZE, colour=theme.INK, x=left, y=y, room=half)
    _put(
        canvas,
        text=book.section,
        face=NARROW_MEDIUM,
        size=_SIZE,
        colour=theme.UMBER,
        x=right,
        y=y,
        room=right - left - half - 12,
        flush="right",
    )
    canvas.setStrokeColor(theme.OCHRE)
    canvas.setLineWidth(0.8)
    canvas.line(left, y - 7, right, y - 7)


def _below(canvas: Any, book: Book, left: float, right: float, y: float) -> None:
    canvas.setStrokeColor(theme.SAND)
    canvas.setLineWidth(0.5)
    canvas.line(left, y, right, y)
    _put(
        canvas, text=book.head.caution, face=NARROW, size=_SMALL, colour=theme.INK, x=left, y=y - 10, room=right - left
    )
    head = book.head
    issue = [f"Revision {head.revision}", head.dated.isoformat(), f"Input {head.fingerprint[:12]}"]
    issue += [f"No. {head.number}"] if head.number else []
    _put(
        canvas,
        text="   ·   ".join(issue),
        face=NARROW,
        size=_SMALL,
        colour=theme.UMBER,
        x=left,
        y=y - 20,
        room=(right - left) * 0.75,
    )
    page = f"{book.head.part or 'Page'} {book.page} of {book.total}"
    _put(
        canvas,
        text=page,
        face=NARROW_MEDIUM,
        size=_SIZE,
        colour=theme.INK,
        x=right,
        y=y - 20,
        room=(right - left) * 0.22,
        flush="right",
    )


def _put(
    canvas: Any, text: str, face: str, size: float, colour: Any, x: float, y: float, room: float, flush: str = "left"
) -> None:
    """One line, cut where it is too long."""
    face = face_for(text.replace("\n", " "), face)
    text = shortened(text, face, size, room)
    canvas.setFont(face, size)
    canvas.setFillColor(colour)
    canvas.drawString(x if flush == "left" else x - text_width(text, face, size), y, text)
