"""Lab tables in workbooks: the value of each cell as stored, and every cell that cannot be trusted named by its place.

The workbooks are made here with openpyxl, which is a second, independent reading of the same file format.
"""

from __future__ import annotations

import datetime
import io
import zipfile
from collections.abc import Callable
from typing import Any

import openpyxl
import pytest
import xlsxwriter
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.comments import Comment
from openpyxl.styles import Font
from openpyxl.utils.datetime import CALENDAR_MAC_1904

from compliance.problems import ProblemsFound
from compliance.reading.tables.xlsx_places import column_letters, column_number
from compliance.reading.tables.xlsx_table import XlsxCells, cell_text, xlsx_cells
from tests.tries import tries

HEADINGS = ["set", "specimen", "cast", "width [mm]", "note"]
ROW = ["T1", "T1-1", datetime.date(2026, 4, 6), 101.6, "sound"]


def workbook(change: Callable[[Any, Any], None] | None = None) -> bytes:
    """A book with one table in its first sheet; `change` gets the book and the sheet before it is saved."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Prisms"
    for row in (HEADINGS, ROW, ["T1", "T1-2", *ROW[2:]]):
        sheet.append(row)
    if change:
        change(book, sheet)
    kept = io.BytesIO()
    book.save(kept)
    return kept.getvalue()


def read(data: bytes, sheet: str | None = None, first: int | None = None, last: int | None = None) -> XlsxCells:
    return xlsx_cells(data, shown="lab/x.xlsx", sheet=sheet, first=first, last=last)


def found(change: Callable[[Any, Any], None], **asked: Any) -> list[tuple[int, int, str]]:
    return [(one.place.line, one.place.column, one.code) for one in read(workbook(change), **asked).found]


def test_cells_come_as_they_are_stored_with_their_places() -> None:
    cells = read(workbook())
    assert cells.rows[0] == (1, HEADINGS)
    assert cells.rows[1] == (2, ["T1", "T1-1", "2026-04-06", "101.6", "sound"])
    assert cells.found == ()
    assert str(cells.places(3, 3)) == "lab/x.xlsx:3:4" and str(cells.places(3, None)) == "lab/x.xlsx:3:1"


def test_a_named_sheet_and_a_table_below_a_title() -> None:
    def change(book: Any, sheet: Any) -> None:
        other = book.create_sheet("Beams")
        other["B3"], other["B4"] = "set", 7

    assert read(workbook(change), sheet="Beams").rows == ((3, ["", "set"]), (4, ["", "7"]))
    assert read(workbook(change), sheet="Prisms", first=2, last=2).rows == (
        (2, ["T1", "T1-1", "2026-04-06", "101.6", "sound"]),
    )


def test_dates_of_both_calendars_and_with_a_time_of_day() -> None:
    def change(book: Any, sheet: Any) -> None:
        book.epoch = CALENDAR_MAC_1904
        sheet["C2"] = datetime.datetime(2026, 4, 6, 14, 30)

    assert [cells[2] for _, cells in read(workbook(change)).rows[1:]] == ["2026-04-06", "2026-04-06"]


@given(st.floats(allow_nan=False, allow_infinity=False, min_value=-1e14, max_value=1e14))
def test_numbers_are_the_floats_of_the_cell(value: float) -> None:
    text = cell_text(value)
    assert "e" not in text.lower()
    assert float(text) == pytest.approx(value, rel=1e-15, abs=1e-20)
    if abs(value) >= 1e-3 or value == 0:
        assert float(text) == value


@pytest.mark.parametrize(
    ("value", "text"),
    [(4, "4"), (4.0, "4"), (4.02, "4.02"), (1e-7, "0.0000001"), (1e22, "1" + "0" * 22), (True, "TRUE"), ("x", "x"),
     (datetime.time(3, 4), "03:04:00"), (100.0, "100")],
)  # fmt: skip
def test_other_values(value: Any, text: str) -> None:
    assert cell_text(value) == text


def _put(cell: str, value: Any) -> Callable[[Any, Any], None]:
    def change(book: Any, sheet: Any) -> None:
        sheet[cell] = value

    return change


def _hide_row(book: Any, sheet: Any) -> None:
    sheet.row_dimensions[3].hidden = True


def _hide_column(book: Any, sheet: Any) -> None:
    sheet.column_dimensions["D"].hidden = True


def _merge(book: Any, sheet: Any) -> None:
    sheet["A3"] = None
    sheet.merge_cells("A2:A3")


def _hide_sheet(book: Any, sheet: Any) -> None:
    book.create_sheet("Old").sheet_state = "hidden"


def _error(book: Any, sheet: Any) -> None:
    sheet["D3"] = "#DIV/0!"
    sheet["D3"].data_type = "e"


def _strike(cell: str) -> Callable[[Any, Any], None]:
    def change(book: Any, sheet: Any) -> None:
        sheet[cell].font = Font(strike=True)

    return change


def _strike_part(book: Any, sheet: Any) -> None:
    sheet["E2"] = CellRichText("4.1 ", TextBlock(InlineFont(strike=True), "4.3"))


@pytest.mark.parametrize(
    ("change", "at"),
    [
        (_strike("D3"), (3, 4, "xlsx-struck")),
        (_strike("B2"), (2, 2, "xlsx-struck")),
        (_strike_part, (2, 5, "xlsx-struck")),
        (_put("D3", "=D2*2"), (3, 4, "xlsx-formula")),
        (_error, (3, 4, "xlsx-error")),
        (_hide_row, (3, 1, "xlsx-hidden-row")),
        (_hide_column, (1, 4, "xlsx-hidden-column")),
        (_merge, (2, 1, "xlsx-merged")),
        (_put("E2", "sound\u202e"), (2, 5, "xlsx-control-character")),
    ],
)
def test_a_cell_that_cannot_be_trusted_is_named(change: Callable[[Any, Any], None], at: tuple[int, int, str]) -> None:
    assert found(change) == [at]


def test_an_empty_cell_and_one_outside_the_table_may_be_struck_out() -> None:
    assert found(_strike("F3")) == [] and found(_strike("A9")) == []
    assert found(_strike("D3"), last=2) == []


@pytest.mark.parametrize("writer", ["openpyxl", "xlsxwriter"])
def test_a_comment_is_named_with_its_cell(writer: str) -> None:
    """Two libraries write the same comment, struck value and shared text their own ways."""
    kept = io.BytesIO()
    if writer == "openpyxl":
        kept.write(workbook(lambda _, sheet: setattr(sheet["D3"], "comment", Comment("cracked when\nlifted", "Lab"))))
    else:
        with xlsxwriter.Workbook(kept, {"in_memory": True}) as book:
            sheet = book.add_worksheet()
            for row, cells in enumerate((HEADINGS, ["T1", "T1-1", "2026-04-06", 101.6, "sound"])):
                sheet.write_row(row, 0, cells)
            sheet.write_row(2, 0, ["T1", "T1-2", "2026-04-06"])
            sheet.write(2, 3, 101.6, book.add_format({"font_strikeout": True}))
            sheet.write_comment("D3", "cracked when\nlifted")
    cells = read(kept.getvalue())
    assert [(one.place.line, one.place.column, one.code, one.warning) for one in cells.comments] == [
        (3, 4, "xlsx-comment", True)
    ]
    assert cells.comments[0].wrong.endswith("cracked when lifted")
    assert [one.code for one in cells.found] == (["xlsx-struck"] if writer == "xlsxwriter" else [])


def test_a_comment_in_a_thread_is_read_once() -> None:
    """As the format has it: the thread in a part of its own, and a plain comment for programs that know no threads."""
    kept = io.BytesIO(
        workbook(lambda _, sheet: setattr(sheet["D3"], "comment", Comment("[Threaded comment] Lost", "Lab")))
    )
    links = "xl/worksheets/_rels/sheet1.xml.rels"
    thread = b'<Threads xmlns="x"><threadedComment ref="D3"><text>Cracked</text></threadedComment></Threads>'
    out = io.BytesIO()
    with zipfile.ZipFile(kept) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            link = b'<Relationship Id="t" Type="x/threadedComment" Target="../threadedComments/t.xml"/></Relationships>'
            text = old.read(name)
            new.writestr(name, text.replace(b"</Relationships>", link) if name == links else text)
        new.writestr("xl/threadedComments/t.xml", thread)
    assert [one.wrong.rpartition(": ")[2] for one in read(out.getvalue()).comments] == ["Cracked"]


def test_a_formula_is_named_as_a_spreadsheet_names_it() -> None:
    problem = read(workbook(_put("D3", "=D2*2"))).found[0]
    assert problem.wrong == "cell D3 holds a formula without a stored result" and "save" in problem.instead


def test_a_formula_with_its_result_is_read() -> None:
    """openpyxl stores no results, so the result is written into the sheet as a spreadsheet would."""
    data = _with_sheet(
        workbook(_put("D3", "=D2*2")), lambda xml: xml.replace("<f>D2*2</f><v></v>", "<f>D2*2</f><v>203.2</v>")
    )
    cells = read(data)
    assert cells.found == () and cells.rows[2][1][3] == "203.2"


def _with_sheet(data: bytes, change: Callable[[str], str]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            text = old.read(name)
            if name == "xl/worksheets/sheet1.xml":
                changed = change(text.decode())
                assert changed != text.decode()
                text = changed.encode()
            new.writestr(name, text)
    return out.getvalue()


def test_what_lies_outside_the_table_does_not_matter() -> None:
    def change(book: Any, sheet: Any) -> None:
        sheet.insert_rows(1, 2)
        sheet["A1"] = "Laboratory"
        sheet.merge_cells("A1:E1")
        sheet.row_dimensions[9].hidden = True
        sheet.column_dimensions["H"].hidden = True
        sheet["A7"] = "=D4"

    assert found(change, first=3, last=5) == []
    assert (1, 1, "xlsx-merged") in found(change)


@pytest.mark.parametrize(
    ("data", "sheet", "code"),
    [
        (b"", None, "xlsx-format"),
        (b"not a workbook", None, "xlsx-format"),
        (workbook(), "Prism", "xlsx-sheet"),
        (workbook(_hide_sheet), "Old", "xlsx-hidden-sheet"),
        (_with_sheet(workbook(), lambda xml: "<!DOCTYPE a [<!ENTITY b 'c'>]>" + xml), None, "xlsx-format"),
        (_with_sheet(workbook(), lambda xml: xml.replace('r="E3"', 'r="XFD9000"')), None, "xlsx-size"),
        (_with_sheet(workbook(), lambda xml: xml.replace('r="A3"', 'r="ZZ1048576"')), None, "xlsx-size"),
        (workbook()[:900], None, "xlsx-format"),
    ],
)  # fmt: skip
def test_books_that_are_not_read(data: bytes, sheet: str | None, code: str) -> None:
    with pytest.raises(ProblemsFound) as refused:
        read(data, sheet)
    problem = refused.value.problems[0]
    assert problem.code == code and problem.place.file == "lab/x.xlsx" and problem.instead


def test_a_formatted_cell_far_to_the_right_of_a_short_table_is_no_harm() -> None:
    """Some programs write an empty cell in the last column of every row they have formatted."""
    data = _with_sheet(
        workbook(), lambda xml: xml.replace("</row></sheetData>", '<c r="AMJ3" s="0"/></row></sheetData>')
    )
    assert read(data).rows[2][1] == ["T1", "T1-2", "2026-04-06", "101.6", "sound"]


@settings(max_examples=tries(60))
@given(st.integers(1, 16384))
def test_columns_by_letter_and_number(number: int) -> None:
    assert column_number(column_letters(number)) == number
    assert column_letters(number) == openpyxl.utils.get_column_letter(number)
