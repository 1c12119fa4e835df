"""The workbook read back by other libraries: types, titles in sight, nothing that calculates, the same bytes twice."""

from __future__ import annotations

import time
import zipfile
from datetime import date, datetime
from io import BytesIO
from xml.etree import ElementTree

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st
from python_calamine import CalamineWorkbook

from compliance.output.checklist.workbook import CellValue, Column, Number, Table, workbook

DAY = date(2026, 5, 14)


def table(*rows: tuple[CellValue, ...], columns: int = 3, name: str = "Checklist") -> Table:
    return Table(name, tuple(Column(f"Title {n} [in]", 12.5) for n in range(columns)), rows)


def made(*tables: Table) -> bytes:
    return workbook(tables, "A & B <title>", DAY)


def test_numbers_words_and_days_keep_their_types() -> None:
    data = made(table(("W1", 6.857, 3), (DAY, None, -1e-9)))
    sheet = openpyxl.load_workbook(BytesIO(data))["Checklist"]
    assert [cell.value for cell in sheet[1]] == ["Title 0 [in]", "Title 1 [in]", "Title 2 [in]"]
    assert [(cell.value, cell.data_type) for cell in sheet[2]] == [("W1", "s"), (6.857, "n"), (3, "n")]
    assert sheet["A3"].value == datetime(2026, 5, 14) and sheet["A3"].number_format == "yyyy\\-mm\\-dd"
    assert sheet["B3"].value is None and sheet["C3"].value == -1e-9


def test_calamine_reads_the_same() -> None:
    data = made(table(("W1", 6.857, 3), (DAY, "=1+1", "")))
    rows = CalamineWorkbook.from_filelike(BytesIO(data)).get_sheet_by_index(0).to_python()
    assert rows[1] == ["W1", 6.857, 3.0] and rows[2][:2] == [DAY, "=1+1"]


@pytest.mark.parametrize(
    "text", ["=1+1", "+A1", "-2", "@SUM(A1)", "\t=1", '=HYPERLINK("http://x")', "=cmd|' /C calc'!A0"]
)
def test_text_is_never_a_formula_also_when_it_is_edited(text: str) -> None:
    data = made(table((text, text, 1.0)))
    sheet = openpyxl.load_workbook(BytesIO(data))["Checklist"]
    assert sheet["A2"].data_type == "s" and sheet["A2"].value == text
    assert sheet["A2"].quotePrefix is True
    xml = zipfile.ZipFile(BytesIO(data)).read("xl/worksheets/sheet1.xml").decode()
    assert "<f>" not in xml and "<f " not in xml


@pytest.mark.parametrize("text", ["http://example.org", "mailto:a@example.org", "internal:About!A1", "C:\\x.pdf", "12"])
def test_text_is_never_a_link_or_a_number(text: str) -> None:
    data = made(table((text, text, 1.0)))
    cell = openpyxl.load_workbook(BytesIO(data))["Checklist"]["A2"]
    assert cell.value == text and cell.data_type == "s" and cell.hyperlink is None
    assert not any("rels" in name and "sheet" in name for name in zipfile.ZipFile(BytesIO(data)).namelist())


def test_a_number_is_shown_with_its_decimals_and_kept_whole() -> None:
    sheet = openpyxl.load_workbook(
        BytesIO(made(table((Number(2.583333333, 1), Number(30.55, 0), Number(1e-9, None)))))
    )["Checklist"]
    shown = [(cell.value, cell.number_format) for cell in sheet[2]]
    assert shown == [(2.583333333, "0.0"), (30.55, "0"), (1e-9, "General")]


def test_a_row_is_as_tall_as_its_longest_text_needs() -> None:
    """A digit of the 10-point letters is about 5.1 points wide; most letters are narrower, capitals wider."""
    long = "Earth walls dry before the roof load is put on. " * 5
    sheet = openpyxl.load_workbook(BytesIO(made(table((long, "a", 1.0), ("a", "b\nc\nd", None), ("x" * 9999, 1, 2)))))[
        "Checklist"
    ]
    needed = len(long) / 12.5
    assert sheet.row_dimensions[2].height > 12.5 * needed
    assert sheet.row_dimensions[3].height == pytest.approx(3 * 13.5)
    assert sheet.row_dimensions[4].height == pytest.approx(409, abs=1)


def test_titles_stay_in_sight_filter_and_repeat_in_print() -> None:
    sheet = openpyxl.load_workbook(BytesIO(made(table(("a", 1.0, 2.0)))))["Checklist"]
    assert sheet.freeze_panes == "A2"
    assert sheet.auto_filter.ref == "A1:C2"
    assert sheet.print_title_rows == "$1:$1"
    assert sheet.page_setup.orientation == "landscape"
    assert sheet.column_dimensions["A"].width == pytest.approx(12.5, abs=1)
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight) == (1, 0)


def test_names_of_sheets_are_made_fit_and_unlike() -> None:
    data = made(table(name="A/B:C*?[x]" * 5), table(name="A/B:C*?[x]" * 5), table(name="it's"))
    names = openpyxl.load_workbook(BytesIO(data)).sheetnames
    assert len({name.casefold() for name in names}) == 3 and all(len(name) <= 31 for name in names)
    assert not any(set(name) & set("[]:*?/\\'") for name in names)


@given(st.text(max_size=60))
def test_any_text_comes_back(text: str) -> None:
    data = made(table((text, 1.0, None)))
    found = openpyxl.load_workbook(BytesIO(data))["Checklist"]["A2"].value
    illegal = "".join(char for char in map(chr, range(32)) if char not in "\t\n\r") + "\ufffe\uffff"
    wanted = "".join("\ufffd" if char in illegal or "\ud800" <= char <= "\udfff" else char for char in text)
    # XML readers turn a carriage return into a line feed.
    assert (found or "") == wanted.replace("\r\n", "\n").replace("\r", "\n")


def test_what_a_reader_would_take_for_an_escape_comes_back() -> None:
    text = "_x0041_ and _xZZ_"
    data = made(table((text, 1.0, None)))
    rows = CalamineWorkbook.from_filelike(BytesIO(data)).get_sheet_by_index(0).to_python()
    xml = zipfile.ZipFile(BytesIO(data)).read("xl/sharedStrings.xml").decode()
    assert "_x005F_x0041_" in xml and "_xZZ_" in xml
    assert openpyxl.utils.escape.unescape("_x005F_x0041_") == "_x0041_"
    assert len(rows) == 2


def test_more_columns_than_letters() -> None:
    data = made(table(tuple(float(n) for n in range(60)), columns=60))
    assert openpyxl.load_workbook(BytesIO(data))["Checklist"]["BH2"].value == 59.0


def test_a_text_longer_than_a_cell_holds_is_cut_and_says_so() -> None:
    value = openpyxl.load_workbook(BytesIO(made(table(("x" * 40_000, 1.0, None)))))["Checklist"]["A2"].value
    assert len(value) <= 32_767 and value.endswith("…")


def test_the_same_bytes_twice_whatever_the_clock_says(monkeypatch: pytest.MonkeyPatch) -> None:
    rows = table(("W1", 6.857, DAY))
    first = made(rows)
    monkeypatch.setattr(time, "time", lambda: 4_000_000_000.0)
    assert made(rows) == first
    with zipfile.ZipFile(BytesIO(made(rows))) as file:
        assert {info.date_time for info in file.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert file.testzip() is None


def test_every_part_is_sound_xml_and_named_in_the_package() -> None:
    with zipfile.ZipFile(BytesIO(made(table(("a", 1.0, 2.0)), table(name="More")))) as file:
        for name in file.namelist():
            ElementTree.fromstring(file.read(name))
        kinds = file.read("[Content_Types].xml").decode()
        parts = [name for name in file.namelist() if name.endswith(".xml") and not name.startswith("[")]
        assert len(parts) == 8 and all(f'"/{name}"' in kinds for name in parts)
    properties = openpyxl.load_workbook(BytesIO(made(table()))).properties
    assert properties.title == "A & B <title>" and properties.creator == "earthwall"


def test_more_rows_than_a_sheet_holds_are_refused() -> None:
    rows = ((None, None, None),) * 1_048_576
    with pytest.raises(ValueError, match="more than a spreadsheet holds"):
        made(Table("Checklist", (Column("a"),), rows))
