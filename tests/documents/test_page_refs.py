"""Page numbers that lead a reader of paper from one place to another."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from reportlab.platypus.flowables import PageBreak

from compliance.documents.elements import theme
from compliance.documents.page.book import Book, Head
from compliance.documents.page.page_refs import PageOf
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell
from compliance.documents.page.sheet import Sheet
from tests.documents.reading_back import read_back

HEAD = Head(
    "Title",
    project="Project",
    number="",
    revision="A",
    dated=date(2026, 1, 2),
    author="",
    subject="",
    fingerprint="0" * 64,
)


def _sheet(*parts: object, key: str = "") -> Sheet:
    anchor = Anchor(key) if key else None
    return Sheet((Column(share=1),), [Row((Cell(parts),), anchor=anchor)])  # type: ignore[arg-type]


def test_a_place_without_a_title_gets_its_page(tmp_path: Path) -> None:
    forward = PageOf("late", theme.CELL, before="page ")
    back = PageOf("early", theme.CELL.aligned("right"), before="back on ")
    filler = [Sheet((Column(share=1),), [Row((cell(f"row {number}"),)) for number in range(120)])]
    story = [_sheet(forward, key="early"), PageBreak(), *filler, _sheet(back, key="late")]
    path = tmp_path / "book.pdf"
    Book(HEAD, theme.PAPERS["letter"]).write(story, path)
    read = read_back(path)
    late = len(read.pages)
    assert late > 2
    assert f"page {late}" in read.pages[0]
    assert read.pages[late - 1].endswith("back on 1")


def test_a_page_of_a_place_that_is_nowhere_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(KeyError):
        Book(HEAD, theme.PAPERS["letter"]).write([_sheet(PageOf("nowhere", theme.CELL))], tmp_path / "x.pdf")
    assert not (tmp_path / "x.pdf").exists()
