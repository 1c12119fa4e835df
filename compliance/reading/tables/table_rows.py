"""Rows of a table from cells of text, whichever kind of file they come from."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from typing import TypeVar

from compliance.model.lab_columns import ColumnSpec
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.tables.cell_style import PLAIN, CellStyle, only_order
from compliance.reading.tables.csv_cells import Value
from compliance.reading.tables.csv_heading import Heading, read_heading
from compliance.record import record, replace
from compliance.refused import MOST_PROBLEMS, at_most

MOST_ROWS = 50_000
MOST_COLUMNS = 500

Locate = Callable[[int, int | None], Place]
"""The place of a cell by line and index from 0; the place of the row where the index is None."""

T = TypeVar("T")
_Numbered = tuple[int, list[str]]


@record
class Row:
    """A row of a table. `values` and `texts` hold every known column by its key; `extra` the others by heading.

    `texts` are the cells as entered, without blanks around them. A value is None where its cell, or its whole
    column, is empty.
    """

    line: int
    values: dict[str, Value]
    texts: dict[str, str]
    extra: dict[str, str]
    _indexes: Mapping[str, int] = field(repr=False, compare=False)
    _locate: Locate = field(repr=False, compare=False)

    @property
    def place(self) -> Place:
        """The place of the row."""
        return self._locate(self.line, None)

    def place_of(self, column: str) -> Place:
        """The place of the cell of `column`, a key of `values` or of `extra`; of the row where it has none."""
        return self._locate(self.line, self._indexes.get(column))


def read_rows(
    numbered: Iterable[_Numbered],
    columns: Mapping[str, ColumnSpec],
    locate: Locate,
    found: Iterable[Problem] = (),
    style: CellStyle = PLAIN,
    shown: list[Problem] | None = None,
) -> list[Row]:
    """The rows of a table whose first row with anything in it is the heading row.

    Cells are written in `style`. Where it does not say how days are written and they can be read in one order only,
    they are, and a warning of it joins `shown`.

    `numbered` gives each row's line and its cells; `found` is read once `numbered` is used up, and may hold what
    stopped it. Rows without anything in them are passed over. Raises ProblemsFound with every problem, up to
    `refused.MOST_PROBLEMS`. Codes: `csv-empty-file`, `csv-columns`, `csv-rows`, `csv-cells-few`,
    `csv-cells-many`, `csv-heading`, `csv-too-many-problems`, and those of `csv_heading` and `csv_cells`.
    """
    filled = _filled(numbered)
    heading_line, headings = next(filled, (0, []))
    if not headings:
        raise ProblemsFound(list(found) or [_empty_file(locate)])
    if len(headings) > MOST_COLUMNS:
        wrong = f"the table has more than {MOST_COLUMNS} columns"
        raise ProblemsFound([Problem(locate(heading_line, None), "csv-columns", wrong, "leave out those not needed")])
    heading = read_heading(headings, columns)
    problems = [refused.at(locate(heading_line, index)) for index, refused in heading.refused]
    kept = _whole_rows(filled, heading, locate, problems)
    problems += found
    by_index = list(zip(*(cells for _, cells in kept), strict=True)) or [()] * heading.width
    problems += _nameless_problems(heading, kept, by_index, locate)
    shown = [] if shown is None else shown
    _set_style(heading, kept=kept, by_index=by_index, locate=locate, style=style, shown=shown)
    values = _values(heading, kept=kept, by_index=by_index, locate=locate, problems=problems)
    if problems:
        raise ProblemsFound(at_most(problems, "csv-too-many-problems"))
    return _rows(columns, heading=heading, kept=kept, by_index=by_index, values=values, locate=locate)


def _set_style(
    heading: Heading, kept: list[_Numbered], by_index: list[tuple[str, ...]], locate: Locate, style: CellStyle,
    shown: list[Problem],
) -> None:  # fmt: skip
    """Tells the readers how cells are written."""
    dates = [column for column in heading.known.values() if column.reader.is_date]
    order = style.dates or only_order(text for column in dates for text in by_index[column.index])
    dated = replace(style, dates=order)
    for column in heading.known.values():
        column.reader.style = dated
    if order is None or style.dates is not None:
        return
    for column in dates:
        for (line, _), text in zip(kept, by_index[column.index], strict=True):
            if (day := dated.day(text)) is not None:
                wrong = f"days are read as {order}, the only order they can have: {text} is {day}"
                advice = "say dates: under lab: for the table, or write year-month-day"
                shown.append(Problem(locate(line, column.index), "lab-dates-read", wrong, advice, warning=True))
                return


def _empty_file(locate: Locate) -> Problem:
    place = Place(locate(1, None).file)
    return Problem(place, "csv-empty-file", "the table holds nothing", "write a heading row, then a row to a specimen")


def _filled(numbered: Iterable[_Numbered]) -> Iterator[_Numbered]:
    """The rows with anything in them, their cells without blanks around them."""
    for line, cells in numbered:
        trimmed = [cell.strip() for cell in cells]
        if any(trimmed):
            yield line, trimmed


def _whole_rows(
    rows: Iterable[_Numbered], heading: Heading, locate: Locate, problems: list[Problem]
) -> list[_Numbered]:
    """The rows with one cell to a heading; problems for the others and where there are too many rows."""
    kept: list[_Numbered] = []
    for count, (line, cells) in enumerate(rows, 1):
        if count > MOST_ROWS:
            wrong = f"the table has more than {MOST_ROWS:,} rows"
            problems.append(Problem(locate(line, None), "csv-rows", wrong, "divide it into several files"))
            break
        if len(cells) == heading.width:
            kept.append((line, cells))
        elif len(problems) <= MOST_PROBLEMS:
            problems.append(_width_problem(line, len(cells), heading.width, locate))
    return kept


def _width_problem(line: int, cells: int, width: int, locate: Locate) -> Problem:
    wrong = f"this row has {cells} cells, the heading row has {width}"
    if cells < width:
        return Problem(
            locate(line, cells), "csv-cells-few", wrong, "add the cells that lack; leave one empty by two commas"
        )
    advice = "put a text with a comma in quotes; write numbers with a decimal point"
    return Problem(locate(line, width), "csv-cells-many", wrong, advice)


def _nameless_problems(
    heading: Heading, kept: list[_Numbered], by_index: list[tuple[str, ...]], locate: Locate
) -> Iterator[Problem]:
    """A column without heading may only be empty; spreadsheets leave such columns at the right."""
    for index in heading.nameless:
        for (line, _), text in zip(kept, by_index[index], strict=True):
            if text:
                wrong = "this cell stands in a column without a heading"
                yield Problem(locate(line, index), "csv-heading", wrong, "write a heading, or empty the cell")
                break


def _values(
    heading: Heading,
    kept: list[_Numbered],
    by_index: list[tuple[str, ...]],
    locate: Locate,
    problems: list[Problem],
) -> dict[str, list[Value]]:
    """The values of each known column; a problem for each cell that is refused, not many more than are reported."""
    values: dict[str, list[Value]] = {}
    for key, column in heading.known.items():
        texts, reader = by_index[column.index], column.reader
        values[key] = [reader[text] for text in texts]
        if not reader.refused:
            continue
        known = len(problems)
        for (line, _), text in zip(kept, texts, strict=True):
            if text in reader.refused:
                problems.append(reader.refused[text].at(locate(line, column.index)))
                if len(problems) - known > MOST_PROBLEMS:
                    break
    return values


def _rows(
    columns: Mapping[str, ColumnSpec],
    heading: Heading,
    kept: list[_Numbered],
    by_index: list[tuple[str, ...]],
    values: dict[str, list[Value]],
    locate: Locate,
) -> list[Row]:
    nothing: dict[str, Value] = dict.fromkeys(columns)
    no_text = dict.fromkeys(columns, "")
    indexes = dict(heading.extra) | {key: column.index for key, column in heading.known.items()}
    row_values = _across(list(values.values()), len(kept))
    row_texts = _across([by_index[column.index] for column in heading.known.values()], len(kept))
    return [
        Row(
            line,
            values=nothing | dict(zip(values, row_values[at], strict=True)),
            texts=no_text | dict(zip(values, row_texts[at], strict=True)),
            extra={name: cells[index] for name, index in heading.extra},
            _indexes=indexes,
            _locate=locate,
        )
        for at, (line, cells) in enumerate(kept)
    ]


def _across(columns: Sequence[Sequence[T]], rows: int) -> list[tuple[T, ...]]:
    """Columns as rows; empty rows where there is no column."""
    return list(zip(*columns, strict=True)) if columns else [()] * rows
