"""Lab tables from comma- or semicolon-separated files: every cell a measure, a date, a word or a text.

A measure's unit stands in its heading, in square brackets: `width [in]`. Cells are plain decimal numbers,
dates year-month-day. Nothing is guessed; every problem is found in one reading.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from compliance.files.characters import checked
from compliance.model.lab_columns import ColumnSpec
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import read_text
from compliance.reading.tables.csv_cells import Value
from compliance.reading.tables.csv_places import CsvPlaces
from compliance.reading.tables.table_rows import Row, read_rows
from compliance.record import record

__all__ = ["ColumnSpec", "CsvCells", "Row", "Value", "csv_cells", "parse_csv_table", "read_csv_table"]

MOST_BYTES = 10_000_000

_QUOTED = re.compile(r'"[^"]*"?')


def read_csv_table(
    path: Path, shown: str, columns: Mapping[str, ColumnSpec], warnings: list[Problem] | None = None
) -> list[Row]:
    """The rows of the table in the file at `path`; `shown` is the file's name in problems.

    Raises ProblemsFound. Codes: those of `plain_file.read_text` with the prefix `csv`, and of `parse_csv_table`.
    """
    return parse_csv_table(read_text(path, shown, "csv", MOST_BYTES), shown, columns, warnings)


def parse_csv_table(
    text: str, shown: str, columns: Mapping[str, ColumnSpec], warnings: list[Problem] | None = None
) -> list[Row]:
    """The rows of the table in `text`.

    Raises ProblemsFound. Codes: `csv-nul`, `csv-control-character`, `csv-separator`, `csv-quotes`, `csv-cell-size`,
    and those of `read_rows`.
    """
    cells = csv_cells(text, shown)
    return read_rows(cells.rows, columns, cells.places, cells.found, shown=warnings)


@record
class CsvCells:
    """The cells of a file before anyone knows its columns: each row with the line it begins on, and where cells stand.
    `found` fills with what stopped the rows, once they are used up. A file of text has no `comments`."""

    rows: Iterator[tuple[int, list[str]]]
    places: CsvPlaces
    found: list[Problem]
    below: tuple[tuple[int, list[str]], ...] = ()
    comments: tuple[Problem, ...] = ()


def csv_cells(text: str, shown: str, heading_row: int | None = None) -> CsvCells:
    """The cells of the table in `text`, whose headings stand in line `heading_row` (None: the first with anything).

    Raises ProblemsFound: `csv-nul`, `csv-control-character`, `csv-separator`.
    """
    text = checked(text, shown, "csv")
    # io.StringIO parts lines where the csv module does, at LF, CR LF and CR alone; str.splitlines parts at more.
    lines = list(io.StringIO(text, newline=""))
    below = lines[heading_row - 1 :] if heading_row else lines
    header = next((line for line in below if line.strip()), "")
    separator = _separator(header)
    found: list[Problem] = []
    if "\t" in header.strip() and separator not in header:
        wrong = "the headings are separated by tabs"
        place = Place(shown, lines.index(header) + 1, header.index("\t") + 1)
        raise ProblemsFound([Problem(place, "csv-separator", wrong, "save the table with commas or semicolons")])
    return CsvCells(_numbered_cells(lines, separator, shown, found), CsvPlaces(shown, lines, separator), found)


def _separator(header: str) -> str:
    """Whichever of comma and semicolon stands more often in the heading row, outside quotes."""
    bare = _QUOTED.sub("", header)
    return ";" if bare.count(";") > bare.count(",") else ","


def _numbered_cells(
    lines: Sequence[str], separator: str, shown: str, found: list[Problem]
) -> Iterator[tuple[int, list[str]]]:
    """Each row with the line it begins on. Where the quotes are wrong, a problem joins `found` and the rows end."""
    reader = csv.reader(lines, delimiter=separator, strict=True, skipinitialspace=True)
    begins = 1
    try:
        for cells in reader:
            yield begins, cells
            begins = reader.line_num + 1
    except csv.Error as error:
        place = Place(shown, begins, 1)
        if "field larger" in str(error):
            most = f"a cell of this row holds more than {csv.field_size_limit():,} characters"
            found.append(Problem(place, "csv-cell-size", most, "check that its quotes are closed"))
            return
        if reader.line_num > begins:
            wrong = f"the quotes of the row that begins here are wrong, up to line {reader.line_num}"
        else:
            wrong = "the quotes of this row are wrong"
        advice = "close each quotation, with the separator right after it; write a quote mark inside one twice"
        found.append(Problem(place, "csv-quotes", wrong, advice))
