"""The cells of a table in a workbook, as text, with every cell refused whose value cannot be trusted."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import islice
from typing import TYPE_CHECKING

from compliance.files.characters import HIDDEN, hidden_character_problem
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.tables.table_rows import MOST_ROWS
from compliance.reading.tables.xlsx_parts import Beside, beside_values, refuse_large
from compliance.reading.tables.xlsx_places import column_letters
from compliance.record import record
from compliance.refused import MOST_PROBLEMS, RefusedError, error_words, nearest, one_of

if TYPE_CHECKING:
    from python_calamine import CalamineWorkbook

Value = int | float | str | bool | datetime.time | datetime.date | datetime.datetime | datetime.timedelta
_MOST_DECIMALS = 20
_MOST_SAID = 200


@record
class XlsxCells:
    """Rows with their number in the sheet, problems of single cells, the rows `below` the last one asked for, and a
    warning for each comment at a cell of the table."""

    rows: tuple[tuple[int, list[str]], ...]
    shown: str
    found: tuple[Problem, ...]
    below: tuple[tuple[int, list[str]], ...] = ()
    comments: tuple[Problem, ...] = ()

    def places(self, line: int, index: int | None) -> Place:
        """Row of the sheet, and column counted from 1."""
        return Place(self.shown, line, 1 if index is None else index + 1)


def xlsx_cells(
    data: bytes, shown: str, sheet: str | None, first: int | None, last: int | None, decimal: str = "."
) -> XlsxCells:  # fmt: skip
    """The cells of `sheet` (None: the first) from row `first` (None: the first with anything in it) to row `last`.

    Raises ProblemsFound: `xlsx-format`, `xlsx-sheet`, `xlsx-hidden-sheet`, `xlsx-size`. Found for single cells:
    `xlsx-formula`, `xlsx-error`, `xlsx-hidden-row`, `xlsx-hidden-column`, `xlsx-merged`, `xlsx-control-character`,
    `xlsx-struck`.
    """
    try:
        refuse_large(data)
        values, merged, beside = _read(data, sheet)
    except RefusedError as refused:
        raise ProblemsFound([refused.at(Place(shown))]) from None
    filled = [number for number, row in enumerate(values, 1) if any(cell != "" for cell in row)]
    start = first or (filled[0] if filled else 1)
    stop = min(last or len(values), len(values))
    table = values[start - 1 : stop]
    width = max((column for row in table for column, cell in enumerate(row, 1) if cell != ""), default=0)
    rows = tuple(
        (number, [cell_text(cell, decimal) for cell in row[:width]]) for number, row in enumerate(table, start)
    )
    found = [*_hidden_and_merged(rows, beside, merged, shown), *_cell_problems(rows, beside, shown)]
    below = tuple(
        (number, [cell_text(cell, decimal) for cell in row]) for number, row in enumerate(values[stop:], stop + 1)
    )
    comments = tuple(islice(_comments(rows, beside, shown), MOST_PROBLEMS))
    problems = tuple(sorted(found)[: MOST_PROBLEMS + 1])
    return XlsxCells(rows, shown, problems, below=below if last else (), comments=comments)


def _texts(decimal: str, row: Sequence[Value]) -> list[str]:
    return [cell_text(cell, decimal) for cell in row]


Merged = list[tuple[tuple[int, int], tuple[int, int]]]


def _read(data: bytes, sheet: str | None) -> tuple[list[list[Value]], Merged, Beside]:
    """Values from the first row and column on, merged ranges (counted from 0), and what stands beside the values."""
    from io import BytesIO

    from python_calamine import CalamineError, CalamineWorkbook

    try:
        book = CalamineWorkbook.from_filelike(BytesIO(data))
        name = _sheet_name(book, sheet)
        beside = beside_values(data, name)  # before unrolling: it refuses a sheet that reaches too far
        found = book.get_sheet_by_name(name)
        return found.to_python(skip_empty_area=False, nrows=MOST_ROWS + 2), found.merged_cell_ranges or [], beside
    except CalamineError as error:
        advice = "save it again as .xlsx without a password, or as .csv"
        raise RefusedError("xlsx-format", f"the workbook cannot be read: {error_words(error)}", advice) from error


def sheet_names(data: bytes, shown: str) -> list[str]:
    """The sheets of a workbook that can be read, in order. Raises ProblemsFound: `xlsx-format`, `xlsx-size`."""
    from io import BytesIO

    from python_calamine import CalamineError, CalamineWorkbook, SheetTypeEnum, SheetVisibleEnum

    try:
        refuse_large(data)
        book = CalamineWorkbook.from_filelike(BytesIO(data))
    except RefusedError as refused:
        raise ProblemsFound([refused.at(Place(shown))]) from None
    except CalamineError as error:
        advice = "save it again as .xlsx without a password, or as .csv"
        wrong = f"the workbook cannot be read: {error_words(error)}"
        raise ProblemsFound([Problem(Place(shown), "xlsx-format", wrong, advice)]) from error
    wanted = (SheetTypeEnum.WorkSheet, SheetVisibleEnum.Visible)
    return [one.name for one in book.sheets_metadata if (one.typ, one.visible) == wanted]


def _sheet_name(book: CalamineWorkbook, sheet: str | None) -> str:
    """The sheet asked for, or the first. Raises RefusedError."""
    from python_calamine import SheetTypeEnum, SheetVisibleEnum

    sheets = {one.name: one for one in book.sheets_metadata if one.typ == SheetTypeEnum.WorkSheet}
    name = sheet if sheet is not None else next(iter(sheets), "")
    if name not in sheets:
        near = nearest(name, sheets)
        advice = f"did you mean {near}?" if near else one_of(sheets) if sheets else "save it with a table in it"
        wrong = f"the workbook has no sheet {name!r}" if sheets else "the workbook has no sheet"
        raise RefusedError("xlsx-sheet", wrong, advice)
    if sheets[name].visible != SheetVisibleEnum.Visible:
        raise RefusedError(
            "xlsx-hidden-sheet", f"the sheet {name!r} is hidden", "show it, or name another under sheet:"
        )
    return name


def cell_text(value: Value, decimal: str = ".") -> str:
    """A value as a table of text would hold it: numbers as plain decimals of the very float with the sign `decimal`,
    dates year-month-day."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        return _number_text(value).replace(".", decimal)
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, datetime.datetime):
        return value.date().isoformat()
    if isinstance(value, datetime.date):
        return value.isoformat()
    return str(value)


def _number_text(value: float) -> str:
    shortest = repr(value)
    if "e" not in shortest and len(shortest) <= _MOST_DECIMALS:
        return shortest.removesuffix(".0")
    exact = Decimal(shortest)
    text = f"{exact:f}"
    if "." in text and len(text.partition(".")[2]) > _MOST_DECIMALS:
        text = f"{exact:.{_MOST_DECIMALS}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


Rows = tuple[tuple[int, list[str]], ...]


def _cell_problems(rows: Rows, beside: Beside, shown: str) -> Iterator[Problem]:
    inside = {number for number, _ in rows}
    for row, column in beside.unworked:
        if row in inside:
            wrong = f"cell {column_letters(column)}{row} holds a formula without a stored result"
            advice = "open the workbook in a spreadsheet and save it, or put the value in place of the formula"
            yield Problem(Place(shown, row, column), "xlsx-formula", wrong, advice)
    for (row, column), error in beside.errors:
        if row in inside:
            wrong = f"cell {column_letters(column)}{row} shows {error}"
            yield Problem(
                Place(shown, row, column), "xlsx-error", wrong, "correct its formula, or put the value in place"
            )
    for row, column in beside.remarks.struck:
        if row in inside:
            wrong = f"cell {column_letters(column)}{row} is struck out"
            advice = "delete the row if the specimen does not count and say why in a note, or take the line away"
            yield Problem(Place(shown, row, column), "xlsx-struck", wrong, advice)
    for number, cells in rows:
        if HIDDEN.search("\t".join(cells)) is None:
            continue
        for column, text in enumerate(cells, 1):
            match = HIDDEN.search(text)
            if match:
                yield hidden_character_problem(match[0], Place(shown, number, column), "xlsx")


def _comments(rows: Rows, beside: Beside, shown: str) -> Iterator[Problem]:
    inside = {number for number, _ in rows}
    for (row, column), text in sorted(beside.remarks.comments):
        if row in inside:
            said = text if len(text) <= _MOST_SAID else f"{text[:_MOST_SAID]}..."
            clean = HIDDEN.sub(" ", said)
            wrong = f"cell {column_letters(column)}{row} has a comment, which is not taken into account: {clean}"
            advice = "where it matters write it in the column note, and correct the row"
            yield Problem(Place(shown, row, column), "xlsx-comment", wrong, advice, warning=True)


def _hidden_and_merged(rows: Rows, beside: Beside, merged: Merged, shown: str) -> Iterator[Problem]:
    """Hidden rows and columns with anything in them, and merged cells, inside the table."""
    for number, cells in rows:
        if number in beside.hidden_rows and any(cells):
            advice = "show it if the specimen counts, or delete it from the table"
            yield Problem(Place(shown, number, 1), "xlsx-hidden-row", f"row {number} of the table is hidden", advice)
    for column in sorted(beside.hidden_columns):
        line = next((number for number, cells in rows if column <= len(cells) and cells[column - 1]), None)
        if line is not None:
            wrong = f"column {column_letters(column)} of the table is hidden"
            yield Problem(
                Place(shown, line, column), "xlsx-hidden-column", wrong, "show it, or delete it from the table"
            )
    numbers = {number for number, _ in rows if any(_)}
    for (top, left), (bottom, right) in merged:
        line = next((row + 1 for row in range(top, bottom + 1) if row + 1 in numbers), None)
        if line is not None:
            area = f"{column_letters(left + 1)}{top + 1}:{column_letters(right + 1)}{bottom + 1}"
            advice = "take them apart and fill in each cell; for a title above the table, give heading_row:"
            yield Problem(Place(shown, line, left + 1), "xlsx-merged", f"the cells {area} are merged", advice)
