"""The content of a submittal set by reportlab alone: paragraphs, tables, a table of contents, two passes."""

from __future__ import annotations

import pickle
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple
from xml.sax.saxutils import escape

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus.doctemplate import BaseDocTemplate, PageTemplate
from reportlab.platypus.flowables import Flowable, PageBreak
from reportlab.platypus.frames import Frame
from reportlab.platypus.paragraph import Paragraph
from reportlab.platypus.tableofcontents import TableOfContents
from reportlab.platypus.tables import LongTable

from compliance.documents.elements.theme import CELL, INK, PAPERS, Style
from compliance.documents.figures.drawing_block import DrawingBlock
from compliance.documents.figures.drawing_ink import ink
from compliance.documents.page.faces import clean, face_for, register_faces
from compliance.documents.page.page_refs import Finder, Reference
from compliance.documents.page.rows import GAP, Row
from compliance.documents.page.sheet import Sheet

PAPER = PAPERS["letter"]


class Text(NamedTuple):
    text: str
    style: Style
    link: str = ""


class Cells(NamedTuple):
    """The texts of each cell, how many columns it spans, and the heading the row is, if it is one."""

    cells: list[list[Text]]
    spans: list[int]
    heading: tuple[str, int] | None


class Table(NamedTuple):
    widths: list[float]
    head: list[Cells]
    rows: list[Cells]
    lead: list[Cells]


def content_of(story: Sequence[Any]) -> list[Any]:
    """Tables, drawings and breaks of a story, as plain data."""
    content: list[Any] = []
    for one in story:
        if isinstance(one, Sheet):
            one.wrap(PAPER.body_width, 1e6)
            layout = one._layout
            assert layout
            rows = [row.source for group in layout.groups for row in group.rows]
            content.append(
                Table(layout.widths, [_cells(row) for row in one._head], [_cells(row) for row in rows],
                      [_cells(row) for row in one.lead])
            )  # fmt: skip
        elif isinstance(one, DrawingBlock):
            content.append((one.drawing, one.height))
        elif isinstance(one, PageBreak):
            content.append(None)
    return content


def _cells(row: Row) -> Cells:
    heading = (row.anchor.title, row.anchor.level) if row.anchor and row.anchor.title else None
    cells = [[text for part in one.parts for text in _texts(part, one.link)] for one in row.cells]
    return Cells(cells, [one.span for one in row.cells], heading)


def _texts(part: Any, link: str) -> Iterator[Text]:
    if isinstance(part, Finder):
        yield from (Text(text, part.style, key) for text, key in part.places)
    elif isinstance(part, Reference):
        yield Text(part.text, part.style, part.key)
    elif text := getattr(part, "text", ""):
        yield Text(text, getattr(part, "style", CELL), link)


class _Ink(Flowable):  # type: ignore[misc]
    def __init__(self, drawing: Any, height: float) -> None:
        super().__init__()
        self.drawing, self.width, self.height = drawing, PAPER.body_width, height

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return self.width, self.height

    def draw(self) -> None:
        self.canv.places = {}
        self.canv.label = lambda key, before="": ""
        ink(self.canv, self.drawing)


class Raw(BaseDocTemplate):  # type: ignore[misc]
    def __init__(self, target: str) -> None:
        super().__init__(target, pagesize=(PAPER.width, PAPER.height), invariant=1, initialFontName="Text")
        frame = Frame(PAPER.side, PAPER.bottom, PAPER.body_width, PAPER.body_height, 0, 0, 0, 0)
        self.addPageTemplates([PageTemplate("body", [frame], onPageEnd=self._running)])

    def _running(self, canvas: Any, book: Any) -> None:
        canvas.setFont("Text", 7.5)
        canvas.drawString(PAPER.side, 36, f"Page {book.page}")

    def afterFlowable(self, flowable: Any) -> None:  # noqa: N802
        heading = getattr(flowable, "heading", None)
        if heading:
            title, level = heading
            key = f"h{id(flowable)}"
            self.canv.bookmarkPage(key)
            self.canv.addOutlineEntry(title, key, level, closed=level > 0)
            if level < 2:
                self.notify("TOCEntry", (level, escape(title), self.page))


def write_raw(content: Sequence[Any], target: str) -> int:
    """Write the PDF and give the number of its pages. A link to a rule becomes one to the first page: reportlab
    refuses links to places that are not there, and the raw document names none."""
    register_faces()
    styles: dict[Any, ParagraphStyle] = {}
    story: list[Any] = [_anchor(), TableOfContents()]
    for one in content:
        if one is None:
            story.append(PageBreak())
        elif isinstance(one, Table):
            story += _table(one, styles)
        else:
            story.append(_Ink(*one))
    book = Raw(target)
    book.multiBuild(story, maxPasses=4)
    return int(book.page)


def _anchor() -> Paragraph:
    return Paragraph('<a name="top"/>', ParagraphStyle("top", fontName="Text"))


def _table(table: Table, styles: dict[Any, ParagraphStyle]) -> Iterator[Flowable]:
    for row in table.lead:
        for index, text in enumerate(text for cell in row.cells for text in cell):
            made = _paragraph(text, styles)
            if row.heading and not index:
                made.heading = row.heading
            yield made
    rows = [*table.head, *table.rows]
    if not rows:
        return
    commands: list[Any] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"), ("LINEBELOW", (0, 0), (-1, -1), 0.4, INK),
        ("LEFTPADDING", (0, 0), (-1, -1), GAP), ("RIGHTPADDING", (0, 0), (-1, -1), GAP),
        ("TOPPADDING", (0, 0), (-1, -1), 2.4), ("BOTTOMPADDING", (0, 0), (-1, -1), 2.8),
    ]  # fmt: skip
    data = []
    for number, row in enumerate(rows):
        line: list[Any] = []
        for texts, span in zip(row.cells, row.spans, strict=True):
            if span > 1:
                commands.append(("SPAN", (len(line), number), (len(line) + span - 1, number)))
            line += [[_paragraph(text, styles) for text in texts], *[""] * (span - 1)]
        data.append(line + [""] * (len(table.widths) - len(line)))
    yield LongTable(data, colWidths=table.widths, repeatRows=len(table.head), style=commands, splitInRow=1)


def _paragraph(text: Text, styles: dict[Any, ParagraphStyle]) -> Paragraph:
    said = clean(text.text)
    face = face_for(said, text.style.face)
    key = (face, text.style.size, text.style.leading, text.style.align)
    if key not in styles:
        align = {"left": 0, "centre": 1, "right": 2}[text.style.align]
        styles[key] = ParagraphStyle(
            str(key), fontName=face, fontSize=text.style.size, leading=text.style.leading, alignment=align,
            textColor=text.style.colour,
        )  # fmt: skip
    marked = escape(said).replace("\n", "<br/>")
    return Paragraph(f'<a href="#top">{marked}</a>' if text.link else marked, styles[key])


def main(content: str, target: str) -> None:
    """Write what `content_of` took and pickle kept."""
    write_raw(pickle.loads(Path(content).read_bytes()), target)
