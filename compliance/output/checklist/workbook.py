"""A workbook of tables (OOXML, ECMA-376): typed cells, no formulas, the same bytes for the same tables.

Text stands in the cells as text and can never become a formula or a link, also when somebody edits the cell; numbers
are numbers, days are days.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from datetime import date, datetime
from functools import lru_cache
from io import BytesIO
from typing import TYPE_CHECKING, Literal

from compliance.record import record

if TYPE_CHECKING:
    import xlsxwriter
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet


@record
class Number:
    """A number and the decimals it is shown with, None for those that the program chooses; the cell holds all of it."""

    value: float
    decimals: int | None


CellValue = str | float | int | Number | date | None
Paper = Literal["us", "si"]

_PAPER = {"us": 17, "si": 8}  # 11 × 17 in; A3
_MOST_TEXT, _MOST_NAME, _MOST_ROWS = 32_000, 31, 1_048_576
_NO_NAME = re.compile(r"[\[\]:*?/\\']")
_NO_XML = re.compile("[^\t\n\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
_AS_TEXT = {"strings_to_numbers": False, "strings_to_formulas": False, "strings_to_urls": False}
_LINE, _TALLEST = 13.5, 409.0
"""Points of one line of text, and of the tallest row that a spreadsheet shows."""
_ROOM = 0.9
"""Of the width of a column, what a text is counted to fill: the face of another office program may run wider."""
_MARGIN = 0.4


@record
class Column:
    """A column: its title with the unit in brackets, and its width in characters."""

    title: str
    width: float = 14.0


@record
class Table:
    """One sheet. Its first row, the titles, stays in sight."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[CellValue, ...], ...]


def workbook(tables: Sequence[Table], title: str, made: date, paper: Paper = "us") -> bytes:
    """The whole file, printed on 11 × 17 in or A3 sheets. Raises ValueError for a table with more rows than a
    spreadsheet holds."""
    import xlsxwriter

    for table in tables:
        if len(table.rows) + 1 > _MOST_ROWS:
            raise ValueError(f"the sheet {table.name} would have {len(table.rows)} rows, more than a spreadsheet holds")
    out = BytesIO()
    with xlsxwriter.Workbook(out, {"in_memory": True, **_AS_TEXT}) as book:
        book.set_properties({
            "title": _fit(title), "author": "earthwall", "created": datetime(made.year, made.month, made.day)
        })  # fmt: skip
        looks = _Looks(book)
        for name, table in zip(_names(tables), tables, strict=True):
            sheet = book.add_worksheet(name)
            _set_up(sheet, table, paper)
            _fill(sheet, table, looks)
    return out.getvalue()


def _names(tables: Sequence[Table]) -> list[str]:
    """Names of sheets, made fit and unlike each other."""
    names: list[str] = []
    for table in tables:
        name = _NO_NAME.sub("-", table.name)[:_MOST_NAME] or "Sheet"
        while name.casefold() in (one.casefold() for one in names):
            name = f"{name[: _MOST_NAME - 2]}-{len(names) + 1}"
        names.append(name)
    return names


class _Looks:
    """The formats of cells, each made once."""

    def __init__(self, book: xlsxwriter.Workbook) -> None:
        self._book = book
        self._numbers: dict[int | None, Format] = {}
        self.text = self._look(text_wrap=True)
        self.guarded = self._look(text_wrap=True, quote_prefix=True)
        self.day = self._look(num_format="yyyy\\-mm\\-dd", align="left")
        self.head = self._look(text_wrap=True, bold=True, bg_color="#E9E2D3")

    def _look(self, **properties: object) -> Format:
        return self._book.add_format({"font_name": "Calibri", "font_size": 10, "valign": "top", **properties})

    def number(self, decimals: int | None) -> Format:
        if decimals not in self._numbers:
            shown = "General" if decimals is None else f"0.{'0' * decimals}".rstrip(".")
            self._numbers[decimals] = self._look(num_format=shown)
        return self._numbers[decimals]


def _set_up(sheet: Worksheet, table: Table, paper: Paper) -> None:
    """Widths, titles that stay, filter, and a print as wide as one sheet of paper."""
    last = len(table.columns) - 1
    for index, column in enumerate(table.columns):
        sheet.set_column(index, index, column.width)
    sheet.freeze_panes(1, 0)
    sheet.autofilter(0, 0, len(table.rows), last)
    sheet.repeat_rows(0)
    sheet.set_landscape()
    sheet.set_paper(_PAPER[paper])
    sheet.fit_to_pages(1, 0)
    sheet.set_margins(left=_MARGIN, right=_MARGIN, top=0.6, bottom=0.6)
    sheet.set_footer("&L&F, &A&RPage &P of &N")


def _fill(sheet: Worksheet, table: Table, looks: _Looks) -> None:
    titles = [column.title for column in table.columns]
    for row, values in enumerate([titles, *table.rows]):
        lines = max(
            (_lines(value, column.width) for value, column in zip(values, table.columns, strict=True)), default=1
        )
        sheet.set_row(row, min(_TALLEST, lines * _LINE))
        for index, value in enumerate(values):
            _put(sheet, row=row, index=index, value=value, looks=looks)


def _put(sheet: Worksheet, row: int, index: int, value: CellValue, looks: _Looks) -> None:
    if value is None or value == "":
        return
    if isinstance(value, str):
        guarded = looks.guarded if value.startswith(_FORMULA_STARTS) else looks.text
        sheet.write_string(row, index, _fit(value), looks.head if row == 0 else guarded)
    elif isinstance(value, date):
        sheet.write_datetime(row, index, value, looks.day)
    elif isinstance(value, Number):
        sheet.write_number(row, index, value.value, looks.number(value.decimals))
    else:
        sheet.write_number(row, index, value, looks.number(None))


@lru_cache(maxsize=5000)
def _lines(value: CellValue, width: float) -> int:
    """How many lines a text needs in a column of so many digits' width. Not every office program makes rows taller
    that another program wrote."""
    if not isinstance(value, str):
        return 1
    return sum(max(1, len(textwrap.wrap(line, max(1, int(width * _ROOM))))) for line in value.split("\n"))


def _fit(value: str) -> str:
    """What a cell can hold: lines end in a line feed, what XML cannot hold is replaced, too long a text is cut."""
    text = value.replace("\r\n", "\n").replace("\r", "\n")
    shown = text if len(text) <= _MOST_TEXT else f"{text[:_MOST_TEXT]}…"
    return _NO_XML.sub("\ufffd", shown)
