"""Rows of a sheet that a person filled in, as texts by their heading: comma-separated values or a workbook."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping

from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import decoded
from compliance.reading.tables.csv_table import csv_cells
from compliance.reading.tables.table_rows import Locate
from compliance.reading.tables.xlsx_table import xlsx_cells
from compliance.record import record, replace

MOST_BYTES = 20_000_000


@record
class SheetForm:
    """`needed` are columns that must be there, `columns` all that may stand once only; `code` is that of problems, and
    `written_by` the command that writes the sheet."""

    needed: Collection[str]
    columns: Collection[str]
    code: str
    written_by: str


@record
class FilledRow:
    """The texts of a row by heading, in small letters, and the place of each."""

    texts: Mapping[str, str]
    places: Mapping[str, Place]


def filled_rows(data: bytes, shown: str, form: SheetForm) -> list[FilledRow]:
    """Each row below the heading that holds anything. Raises ProblemsFound."""
    if data.startswith(b"PK"):
        sheet = xlsx_cells(data, shown=shown, sheet=None, first=None, last=None)
        if sheet.found or sheet.comments:  # a condition in a comment would be lost
            raise ProblemsFound([*sheet.found, *(replace(one, warning=False) for one in sheet.comments)])
        return list(_of_rows(sheet.rows, sheet.places, form))
    table = csv_cells(decoded(data, shown, "csv"), shown)
    rows = list(table.rows)
    if table.found:
        raise ProblemsFound(table.found)
    return list(_of_rows(rows, table.places, form))


def _of_rows(rows: Iterable[tuple[int, list[str]]], locate: Locate, form: SheetForm) -> Iterator[FilledRow]:
    heading: list[str] = []
    for line, cells in rows:
        texts = [cell.strip().removeprefix("'") for cell in cells]
        if not any(texts):
            continue
        if not heading:
            heading = [text.casefold() for text in texts]
            _check_heading(heading, locate(line, None), form)
            continue
        places = {name: locate(line, index) for index, name in enumerate(heading)}
        yield FilledRow(dict(zip(heading, texts, strict=False)), places)


def _check_heading(heading: list[str], place: Place, form: SheetForm) -> None:
    if lacking := [name for name in form.needed if name not in heading]:
        wrong = f"the heading lacks {', '.join(lacking)}"
        raise ProblemsFound([Problem(place, form.code, wrong, f"{form.written_by} writes the sheet to fill in")])
    if twice := [name for name in form.columns if heading.count(name) > 1]:
        raise ProblemsFound([Problem(place, form.code, f"the heading has {twice[0]} twice", "keep one of the columns")])
