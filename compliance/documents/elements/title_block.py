"""The sheets of a drawing set: where drawings stand, and the title block with its number at bottom right.

Order of the block and the place of the number follow what US plan reviewers commonly ask for (common practice).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from compliance.documents.elements import theme
from compliance.documents.elements.theme import Paper, Style
from compliance.documents.page.faces import clean, face_for
from compliance.documents.page.line_breaking import break_line
from compliance.documents.tagging.tagged_canvas import RUNNING
from compliance.drawings.common.lettering import LEAST

if TYPE_CHECKING:
    from compliance.documents.page.book import Book

Area = tuple[float, float, float, float]
"""Left, bottom, right, top."""
_BLOCK, _GAP, _BETWEEN = 122.0, 12.0, 12.0
_PAD = 6.0
_SEAL = 112.0
_SMALL = Style(theme.CELL_SMALL.face, LEAST, 11.6, theme.UMBER)
_TEXT = Style(theme.CELL.face, LEAST, 11.6)
_BOLD = Style(theme.CELL_BOLD.face, LEAST, 11.6)
_LABEL = Style(theme.HEADING.face, LEAST, 11.6, theme.UMBER)
_NUMBER = Style(theme.SECTION.face, 24.0, 28.0)
_TITLE = Style(theme.BODY_BOLD.face, 10.0, 12.4)
_CAUTION = (
    "From the description alone: no survey, no design. Field-verify dimensions. Code, official and licensed engineer "
    "come first."
)
_REVISION_LINES = 3
_MOST_LINES = 6
"""Of one entry, half as many on a sheet that is not tall: a longer name stands in full in the papers."""
_TALL = 900.0


def area(paper: Paper) -> Area:
    """Where drawings stand on a sheet."""
    right = paper.width - paper.side - _BLOCK - _GAP
    return paper.side, paper.bottom, right, paper.height - paper.top


def columns(paper: Paper) -> tuple[Area, Area]:
    """The same in two columns."""
    left, bottom, right, top = area(paper)
    middle = (left + right) / 2
    return (left, bottom, middle - _BETWEEN / 2, top), (middle + _BETWEEN / 2, bottom, right, top)


def column_paper(paper: Paper) -> Paper:
    """One column as a paper without margins, for what is laid out on a page."""
    left, bottom, right, top = columns(paper)[0]
    return Paper(right - left, top - bottom, side=0.0, top=0.0, bottom=0.0)


def whole_paper(paper: Paper) -> Paper:
    """The whole area as a paper without margins."""
    left, bottom, right, top = area(paper)
    return Paper(right - left, top - bottom, side=0.0, top=0.0, bottom=0.0)


def draw(canvas: Any, book: Book, paper: Paper, number: str, title: str) -> None:
    """The title block of a sheet: room for a seal and a stamp, project, sheet, issue, caution, number."""
    right = paper.width - paper.side
    left = right - _BLOCK
    top, bottom = paper.height - paper.top, paper.bottom
    canvas.begin_decoration(RUNNING)
    canvas.setStrokeColor(theme.INK)
    canvas.setLineWidth(0.9)
    canvas.rect(left, bottom, _BLOCK, top - bottom, stroke=1, fill=0)
    y = _room_for(canvas, label="Seal and signature", left=left, top=top, right=right)
    y = _room_for(canvas, label="Stamp of the office", left=left, top=y, right=right)
    head = book.head
    most = _MOST_LINES if paper.height > _TALL else _MOST_LINES // 2
    y = _entry(canvas, label="Project", text=head.project, style=_TITLE, left=left, top=y, most=most)
    y = _entry(canvas, label="Address", text=head.address or "not given", style=_TEXT, left=left, top=y, most=most)
    y = _entry(canvas, label="Prepared by", text=head.author or "not given", style=_TEXT, left=left, top=y, most=most)
    issue = f"{head.revision}, {head.dated.isoformat()}"
    y = _entry(canvas, label="Revision, date", text=issue, style=_BOLD, left=left, top=y, most=most)
    for _ in range(_REVISION_LINES):
        y -= 14.0
        _rule(canvas, left, y, right)
    y = _entry(canvas, label="Input", text=head.fingerprint[:12], style=_TEXT, left=left, top=y)
    y = _entry(canvas, label="Scale", text="as noted under each drawing", style=_TEXT, left=left, top=y)
    _entry(canvas, label="Read with care", text=_CAUTION, style=_SMALL, left=left, top=y, ruled=False)
    _foot(canvas, book=book, number=number, title=title, left=left, bottom=bottom, right=right)
    canvas.end()


def _foot(canvas: Any, book: Book, number: str, title: str, left: float, bottom: float, right: float) -> None:
    """The sheet's title over its number; nothing stands beside the number."""
    lines = break_line(clean(title), _TITLE.face, _TITLE.size, _BLOCK - 2 * _PAD)
    y = bottom + _NUMBER.leading + 24.0 + _TITLE.leading * len(lines)
    _rule(canvas, left, y + 14.0, right)
    _put(canvas, text="Sheet", style=_LABEL, x=left + _PAD, y=y + 3.0)
    for line in lines:
        _put(canvas, text=line, style=_TITLE, x=left + _PAD, y=y - 9.0)
        y -= _TITLE.leading
    _put(canvas, text=number, style=_NUMBER, x=left + _PAD, y=bottom + 18.0)
    _put(
        canvas,
        text=f"{book.head.part or 'Page'} {book.page} of {book.total}",
        style=_SMALL,
        x=left + _PAD,
        y=bottom + 6.0,
    )


def _room_for(canvas: Any, label: str, left: float, top: float, right: float) -> float:
    _put(canvas, text=label, style=_LABEL, x=left + _PAD, y=top - 10.0)
    _rule(canvas, left, top - _SEAL, right)
    return top - _SEAL


def _entry(
    canvas: Any,
    label: str,
    text: str,
    style: Style,
    left: float,
    top: float,
    ruled: bool = True,
    most: int = _MOST_LINES,
) -> float:
    """A label and its text under it; gives the lower edge."""
    _put(canvas, text=label, style=_LABEL, x=left + _PAD, y=top - 10.0)
    y = top - 12.6
    for line in break_line(clean(text), face_for(clean(text), style.face), style.size, _BLOCK - 2 * _PAD)[:most]:
        _put(canvas, text=line, style=style, x=left + _PAD, y=y - style.baseline)
        y -= style.leading
    y -= 4.0
    if ruled:
        _rule(canvas, left, y, left + _BLOCK)
    return y


def _rule(canvas: Any, left: float, y: float, right: float) -> None:
    canvas.setStrokeColor(theme.SAND)
    canvas.setLineWidth(0.6)
    canvas.line(left, y, right, y)


def _put(canvas: Any, text: str, style: Style, x: float, y: float) -> None:
    canvas.setFont(face_for(text, style.face), style.size)
    canvas.setFillColor(style.colour)
    canvas.drawString(x, y, text)
