"""Attachments bound into the submittal: an index, then photos, texts and pages of letters, each under its line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from reportlab.platypus.flowables import PageBreak

from compliance.checked import Checked
from compliance.documents.attachments.bound_files import Bound
from compliance.documents.attachments.page_copies import Copy, PageForms
from compliance.documents.attachments.pdf_inspection import Letter
from compliance.documents.attachments.pictures import Picture, Shown
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, title
from compliance.documents.elements.theme import Paper
from compliance.documents.page.inked import Figure
from compliance.documents.page.line_breaking import Line, Words
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.record import record
from compliance.report.attachment_uses import attachment_key, used_for
from compliance.report.by_rule import SetFindings
from compliance.report.value_words import NOTHING, counted

_INTRODUCTION = (
    "Papers of others and photos, bound in as they came: nothing in them was changed, and nobody here vouches for what "
    "they say. Pages of letters are made smaller to leave room for the lines above and below. The fingerprint "
    "(SHA-256, its first figures) tells whether a file at hand is the one bound in here."
)
_TALLEST = 285.0
_TURN_FROM = 1.15
"""Width over height from which a page is laid on its side."""


def attachments(
    checked: Checked, sets: tuple[SetFindings, ...], bound: Sequence[Bound] | None, paper: Paper
) -> list[Any]:
    """Nothing where the project attaches nothing. `bound` None: the files were not asked for, and the index says so."""
    if not checked.project.attachments:
        return []
    story: list[Any] = [*on_this_page(), _index(checked, sets, bound)]
    for one in bound or ():
        story += _bound(one, paper)
    return story


def _index(checked: Checked, sets: tuple[SetFindings, ...], bound: Sequence[Bound] | None) -> Sheet:
    known = {one.mark: one for one in bound or ()}
    uses = used_for(checked, sets)
    rows = []
    for mark, attachment in checked.project.attachments.items():
        one = known.get(mark)
        rows.append(
            Row(
                (
                    cell(mark, theme.CELL_BOLD, link=attachment_key(mark) if one and one.content is not None else ""),
                    Cell((Words(attachment.title, theme.CELL), Words(attachment.file, theme.CELL_SMALL))),
                    cell(attachment.date.isoformat() if attachment.date else NOTHING),
                    cell(_kind(one)),
                    cell(", ".join(uses.get(mark, ())) or NOTHING),
                    cell(one.digest[:12] if one else NOTHING),
                )
            )
        )
    head = head_row("Mark", "Title and file", "Date", "What it is", "Named for", "Fingerprint")
    columns = (Column(natural=True), Column(share=3), Column(60), Column(share=2), Column(share=2), Column(68))
    lead = title("attachments", "Attachments", _INTRODUCTION)
    unreadable = {one.mark: one.content.unreadable for one in known.values() if isinstance(one.content, Letter)}
    lead += [full_row(Words(text, theme.CELL, after=4.0)) for text in _unreadable(unreadable)]
    return Sheet(columns, rows, head=[head], lead=lead, below=16)


def _unreadable(faces: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """Why the document does not bear the mark of one that can be read out whole."""
    named = [f"{mark} ({', '.join(names)})" for mark, names in faces.items() if names]
    if named:
        yield (
            f"Typefaces of the attached PDF {'; '.join(named)} are not embedded, or do not say what their letters are: "
            "a screen reader may fail on its pages, and this file does not bear the mark of PDF/UA. Print it to a new "
            "PDF with all typefaces embedded, and attach that."
        )


def _kind(one: Bound | None) -> str:
    if one is None:
        return "named only, not bound in"
    content = one.content
    if isinstance(content, Picture):
        return "picture"
    if isinstance(content, Letter):
        return f"PDF of {counted(len(content.pages), 'page')}"
    return "text" if isinstance(content, str) else f"handed over as a file, {one.size:,} bytes"


def _bound(one: Bound, paper: Paper) -> Iterator[Any]:
    if isinstance(one.content, Picture):
        yield Sheet(
            (Column(share=1),), list(_picture(one.content, one.attachment.title)), lead=[_cover_line(one)], below=14
        )
    elif isinstance(one.content, str):
        rows = [
            Row((Cell((Words(line or " ", theme.SMALL),)),), ruled=False, air=(0.0, 0.0))
            for line in one.content.rstrip().split("\n")
        ]
        yield Sheet(
            (Column(share=1),), rows, lead=[_cover_line(one)], carried=[_attachment_row(one, "continued")], below=14
        )
    elif isinstance(one.content, Letter):
        yield from _letter(one, one.content, paper)


def _cover_line(one: Bound, more: str = "") -> Row:
    """What the attachment is, as a bookmark."""
    row = _attachment_row(one, more)
    return Row(
        row.cells, ruled=row.ruled, anchor=Anchor(attachment_key(one.mark), one.attachment.title, 1), air=row.air
    )


def _attachment_row(one: Bound, more: str) -> Row:
    phrases = [f"attachment {one.mark}", one.attachment.file, f"SHA-256 {one.digest[:12]}"]
    phrases += [one.attachment.date.isoformat()] if one.attachment.date else []
    phrases += [more] if more else []
    parts = (Words(one.attachment.title, theme.BODY_BOLD), Words("   ·   ".join(phrases), theme.CELL_SMALL, after=2.0))
    return Row((Cell(parts),), ruled=True, air=(2.0, 4.0))


def _picture(picture: Picture, title: str) -> Iterator[Row]:
    yield Row((Cell((Shown(picture, _TALLEST, f"Attached picture: {title}"),)),), ruled=False)
    if picture.made_from:
        across, up = picture.made_from
        words = f"Shown with {picture.width} by {picture.height} of its {across} by {up} pixels."
        yield Row((cell(words, theme.SOURCE),), joined=True, ruled=False, air=(0.0, 0.0))


def _letter(one: Bound, letter: Letter, paper: Paper) -> Iterator[Any]:
    """Each page on a page of its own, as large as the body leaves room for."""
    forms = _Forms(one.mark, letter)
    count = len(letter.pages)
    for number in range(count):
        more = f"page {number + 1} of {count}"
        line = _cover_line(one, more) if number == 0 else _attachment_row(one, more)
        height = paper.body_height - _height(line, paper.body_width) - 8
        alt = f"Page {number + 1} of {count} of the attachment: {one.attachment.title}"
        page = full_row(_Page(forms, number, height, alt), air=(3.0, 0.0))
        yield PageBreak()
        yield Sheet((Column(share=1),), (), lead=[line, page], below=0)


def _height(row: Row, width: float) -> float:
    return sum(row.air) + sum(line.height for part in row.cells[0].parts for line in part.lines(width))


class _Forms:
    """The pages of one attached PDF, copied into each document they are drawn in once."""

    def __init__(self, mark: str, letter: Letter) -> None:
        self._mark, self._letter = mark, letter
        self._doc: Any = None
        self._copy = Copy(mark)

    @property
    def is_readable(self) -> bool:
        return not self._letter.unreadable

    def page(self, doc: Any, number: int) -> PageForms:
        if self._doc is not doc:
            self._doc, self._copy = doc, Copy(self._mark, doc)
        return self._copy.page(self._letter.pages[number], number)


@record
class _Page:
    """One page of a letter, framed, as part of a cell."""

    forms: _Forms
    number: int
    height: float
    alt: str

    def lines(self, width: float) -> list[Line]:
        return [Line(self.height, ink=Figure(self._draw, self.alt))]

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        canvas.is_accessible &= self.forms.is_readable
        page = self.forms.page(canvas._doc, self.number)
        turned = page.width / page.height > _TURN_FROM
        across, up = (page.height, page.width) if turned else (page.width, page.height)
        scale = min(width / across, self.height / up, 1.0)
        canvas.saveState()
        canvas.translate(left + (width - across * scale) / 2, top - up * scale)
        canvas.setStrokeColor(theme.SAND)
        canvas.setLineWidth(0.5)
        canvas.rect(0, 0, across * scale, up * scale, stroke=1, fill=0)
        if turned:
            canvas.transform(0, 1, -1, 0, across * scale, 0)
        canvas.scale(scale, scale)
        _draw_forms(canvas, page)
        canvas.restoreState()


def _draw_forms(canvas: Any, page: PageForms) -> None:
    """What lies outside the page's own edges stays hidden, as in its viewer."""
    clip = canvas.beginPath()
    clip.rect(0, 0, page.width, page.height)
    canvas.clipPath(clip, stroke=0, fill=0)
    for name, matrix in page.forms:
        canvas.saveState()
        canvas.transform(*matrix)
        canvas.doForm(name)
        canvas.restoreState()
