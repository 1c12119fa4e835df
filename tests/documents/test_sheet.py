"""Sheets at page ends: heads repeat, rows stay whole, titles stay with what they title, nothing is lost."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.platypus.doctemplate import LayoutError, NextPageTemplate
from reportlab.platypus.flowables import PageBreak, Spacer

from compliance.documents.elements import theme
from compliance.documents.elements.theme import PAPERS
from compliance.documents.page.book import BODY, Book, Head
from compliance.documents.page.column_widths import columns_fitted
from compliance.documents.page.line_breaking import Drawn, Words
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from tests.documents.conftest import PrintedExample
from tests.documents.reading_back import Read, read_back
from tests.documents.structure_back import tagged
from tests.tries import tries

HEAD = Head(
    "Title",
    project="Project",
    number="",
    revision="A",
    dated=date(2026, 1, 2),
    author="Author",
    subject="Subject",
    fingerprint="0" * 64,
)
COLUMNS = (Column(60), Column(share=1))


def pages_of(sheet: Sheet, folder: Path, before: float = 0.0) -> Read:
    """The sheet after a blank of `before` points on a body page; page 1 is an empty cover."""
    path = folder / "sheet.pdf"
    story = [NextPageTemplate(BODY), PageBreak(), Spacer(1, before), sheet]
    Book(HEAD, PAPERS["letter"]).write(story, path)
    return read_back(path)


def rows(count: int, words: int = 3) -> list[Row]:
    return [Row((cell(f"r{n}"), cell(" ".join(f"r{n}w{w}" for w in range(words))))) for n in range(count)]


def test_the_head_repeats_and_the_carried_title_replaces_the_lead(tmp_path: Path) -> None:
    sheet = Sheet(
        COLUMNS, rows(120), head=[head_row("First", "Second")], lead=[full_row(Words("Lead here", theme.BODY))],
        carried=[full_row(Words("Lead here, continued", theme.BODY))],
    )  # fmt: skip
    pages = pages_of(sheet, tmp_path).pages[1:]
    assert len(pages) > 2
    assert all("First Second" in page for page in pages)
    assert "Lead here, continued" not in pages[0] and "Lead here" in pages[0]
    assert all("Lead here, continued" in page for page in pages[1:])


def test_a_page_that_begins_inside_a_rule_says_which(tmp_path: Path) -> None:
    made = []
    for rule in ("Rule one", "Rule two"):
        made.append(Row((cell(rule, span=2),)))
        made += [Row(row.cells, joined=not n, named=rule) for n, row in enumerate(rows(60))]
    pages = pages_of(Sheet(COLUMNS, made, head=[head_row("First", "Second")]), tmp_path).pages[1:]
    assert len(pages) > 2
    ruled = ""
    for page in pages:
        begins = page.split("First Second")[1].split()[0]
        assert (f"{ruled}, continued" in page) == (begins != "Rule")
        ruled = "Rule two" if "Rule two" in page else "Rule one"


def test_no_row_is_torn_and_none_is_lost(tmp_path: Path) -> None:
    pages = pages_of(Sheet(COLUMNS, rows(60, words=60)), tmp_path).pages[1:]
    for n in range(60):
        holders = [page for page in pages if f"r{n}w0 " in page]
        assert len(holders) == 1 and f"r{n}w59" in holders[0]


def test_joined_rows_stay_together(tmp_path: Path) -> None:
    made = []
    for n in range(70):
        made += [Row((cell(f"top{n}"), cell("x"))), Row((Cell(()), cell(f"under{n}")), joined=True)]
    for page in pages_of(Sheet(COLUMNS, made), tmp_path).pages[1:]:
        for n in range(70):
            assert (f"top{n} " in page) == (f"under{n} " in page)


@pytest.mark.parametrize("before", [0, 560, 600, 620, 640, 655])
def test_a_title_is_never_left_alone_at_the_foot_of_a_page(before: int, tmp_path: Path) -> None:
    lead = [full_row(Words("The title", theme.SECTION), anchor=Anchor("title", "The title"))]
    read = pages_of(Sheet(COLUMNS, rows(5), head=[head_row("First", "Second")], lead=lead), tmp_path, before)
    (page,) = [page for page in read.pages if "The title" in page.replace("Project The title", "")]
    assert "First Second" in page and "r0w0" in page


def test_a_row_taller_than_a_page_runs_on_without_loss(tmp_path: Path) -> None:
    sheet = Sheet(COLUMNS, [*rows(2), *rows(1, words=3000)[:1], *rows(2)], head=[head_row("First", "Second")])
    read = pages_of(sheet, tmp_path, 300)
    for n in (0, 1500, 2999):
        assert sum(page.count(f"r0w{n} ") for page in read.pages) >= 1
    text = " ".join(read.pages)
    assert [n for n in range(3000) if f"r0w{n} " not in text] == []


def test_a_lead_taller_than_a_page_runs_on(tmp_path: Path) -> None:
    lead = [full_row(Words(" ".join(f"lead{n}" for n in range(1500)), theme.BODY), anchor=Anchor("long", "Long"))]
    read = pages_of(Sheet(COLUMNS, rows(3), head=[head_row("First", "Second")], lead=lead), tmp_path, 200)
    assert all(f"lead{n} " in read.text for n in range(1500))
    assert "r2w2" in read.text
    assert [title for _, title, _ in read.outline] == ["Long"]


def test_a_cell_alone_of_no_text_is_allowed(tmp_path: Path) -> None:
    assert "r0" in pages_of(Sheet(COLUMNS, [Row((Cell(()), Cell(()))), *rows(1)]), tmp_path).text


@given(
    st.lists(st.lists(st.text("abc defgh", max_size=40), min_size=4, max_size=4), min_size=1, max_size=8),
    st.floats(150, 600),
)
def test_columns_fill_the_width_exactly(texts: list[list[str]], width: float) -> None:
    made = [Row(tuple(cell(text) for text in line)) for line in texts]
    for columns in ((Column(natural=True),) * 4, (Column(20), Column(natural=True), Column(share=1), Column(share=2))):
        widths = columns_fitted(columns, width, made)
        assert len(widths) == 4 and all(one >= 0 for one in widths)
        assert sum(widths) == pytest.approx(width)


@settings(max_examples=tries(15), deadline=None)
@given(st.lists(st.integers(1, 90), min_size=1, max_size=60), st.integers(0, 600))
def test_any_heights_of_rows_keep_every_word_once(
    tmp_path_factory: pytest.TempPathFactory, words: list[int], before: int
) -> None:
    made = [Row((cell(f"q{n}q"), cell(" ".join(["word"] * count)))) for n, count in enumerate(words)]
    read = pages_of(Sheet(COLUMNS, made), tmp_path_factory.mktemp("any"), before)
    assert all(read.text.count(f"q{n}q") == 1 for n in range(len(words)))
    assert read.text.count("word") == sum(words)


def test_what_no_page_can_hold_is_refused_and_not_tried_for_ever(tmp_path: Path) -> None:
    tall = full_row(Drawn(900.0, lambda canvas, left, top, width: None))
    before = full_row(Words("a line above", theme.BODY))
    with pytest.raises(LayoutError):
        Book(HEAD, PAPERS["letter"]).write([Sheet((Column(share=1),), (), lead=[before, tall])], tmp_path / "x.pdf")


@pytest.mark.parametrize(("count", "words", "introduced"), [(120, 3, 3), (3, 2500, 3), (60, 60, 900), (40, 3, 2600)])
def test_a_table_is_read_as_one_wherever_it_is_cut(count: int, words: int, introduced: int, tmp_path: Path) -> None:
    """Rows torn between pages, and a lead longer than a page: its paragraphs, then one table with one row of titles."""
    lead = [
        full_row(Words("Lead here", theme.BODY_BOLD), anchor=Anchor("lead", "Lead here", 0)),
        full_row(Words(" ".join(f"l{n}" for n in range(introduced)), theme.BODY)),
    ]
    carried = [full_row(Words("Lead here, continued", theme.BODY))]
    sheet = Sheet(COLUMNS, rows(count, words), head=[head_row("First", "Second")], lead=lead, carried=carried)
    pages = pages_of(sheet, tmp_path).pages
    found = tagged(tmp_path / "sheet.pdf")
    assert len(pages) > 2 and [one.kind for one in found.elements[0].kids] == ["H1", "P", "Table"]
    (table,) = found.of_kind("Table")
    kinds = [[cell.kind for cell in row.kids] for row in table.kids]
    assert kinds == [["TH", "TH"], *[["TD", "TD"]] * count]
    assert all(cell.marks for row in table.kids for cell in row.kids)
    assert not [page.bare or page.faults for page in found.pages if page.bare or page.faults]


def _units_end(path: Path, page: int, behind: str) -> set[float]:
    """Where the whole part of each number with this unit ends, in points, by the boxes of its characters."""
    document = pypdfium2.PdfDocument(path)
    text = document[page].get_textpage()
    read = text.get_text_range()
    numbers = re.compile(rf"(?<![\d./])(\d+)(?:\.\d+)? {re.escape(behind)}")
    found = {round(text.get_charbox(one.end(1) - 1, loose=True)[2], 1) for one in numbers.finditer(read)}
    document.close()
    return found


@pytest.mark.parametrize(
    ("texts", "unit", "ends"),
    [
        (("31.9 %", "0 %", "100 %", "—", "not given"), "%", 1),
        (("24 ft", "17 ft 5 1/2 in", "9 ft", "112 ft 6 in"), "ft", 1),
        (("12 in", "5.5 in", "101.25 in"), "in", 1),
        (("31.9 %", "5 psi", "100 %"), "%", 2),  # of two units: flush right, as they were
    ],
)
@pytest.mark.parametrize("style", [theme.NUMBER, theme.CELL])
def test_numbers_of_one_unit_stand_with_their_points_in_line(
    texts: tuple[str, ...], unit: str, ends: int, style: theme.Style, tmp_path: Path
) -> None:
    made = [Row((cell(f"r{n}"), cell(text, style))) for n, text in enumerate(texts)]
    columns = (Column(60), Column(natural=True), Column(share=1))
    pages = pages_of(Sheet(columns, made), tmp_path).pages
    assert len(_units_end(tmp_path / "sheet.pdf", 1, unit)) == ends
    assert all(text in pages[1] for text in texts)


def test_inches_alone_stand_behind_feet_and_a_narrow_column_is_left_as_it_is(tmp_path: Path) -> None:
    texts = ("2 ft 6 in", "3 ft", "9 in", "11 ft 10 in")
    made = [Row((cell(text, theme.NUMBER),)) for text in texts]
    pages_of(Sheet((Column(natural=True), Column(share=1)), made), tmp_path)
    inches = _units_end(tmp_path / "sheet.pdf", 1, "in")
    assert len(_units_end(tmp_path / "sheet.pdf", 1, "ft")) == 1 and len(inches) == 2, "units, and tens of inches"
    wide = [Row((cell(text, theme.NUMBER),)) for text in ("123456 %", "0.123456 %")]
    pages = pages_of(Sheet((Column(60), Column(share=1)), wide), tmp_path).pages
    assert "123456 %" in pages[1] and "0.123456 %" in pages[1], "no number is broken for its place"


def test_shares_in_the_example_stand_with_their_points_in_line(printed_example: PrintedExample) -> None:
    page = next(n for n, text in enumerate(printed_example.read.pages) if "Open share" in text)
    assert "31.9 %" in printed_example.read.pages[page] and " 0 %" in printed_example.read.pages[page]
    assert len(_units_end(printed_example.path, page, "%")) == 1
