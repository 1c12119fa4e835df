"""A filled-in sheet of limits: comma-separated values, a workbook, or the form fields of the worksheet."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from io import BytesIO
from pathlib import Path

from compliance.files.characters import hidden_character_problems
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import decoded, read_bytes
from compliance.reading.tables.csv_table import csv_cells
from compliance.reading.tables.table_rows import Locate
from compliance.reading.tables.xlsx_table import xlsx_cells
from compliance.record import replace
from compliance.rules.limits.filled_limit import COLUMNS, FIELD_PARTS, KEYS, FilledLimit

_MOST_BYTES = 20_000_000
_MOST_FIELDS = 20_000
_CELL = re.compile(r"([0-9]{1,4}),([0-9]{1,4})")
_VALUE = "value as read"


def read_filled_limits(path: Path, shown: str) -> list[FilledLimit]:
    """Each line that holds a value, in order. Raises ProblemsFound, also where nothing is filled in."""
    data = read_bytes(path, shown, "csv", _MOST_BYTES)
    if data.startswith(b"%PDF-"):
        found = list(_of_form(data, shown))
    elif data.startswith(b"PK"):
        cells = xlsx_cells(data, shown=shown, sheet=None, first=None, last=None)
        if cells.found or cells.comments:  # a condition in a comment would be lost
            raise ProblemsFound([*cells.found, *(replace(one, warning=False) for one in cells.comments)])
        found = list(_of_rows(cells.rows, cells.places))
    else:
        table = csv_cells(decoded(data, shown, "csv"), shown)
        rows = list(table.rows)
        if table.found:
            raise ProblemsFound(table.found)
        found = list(_of_rows(rows, table.places))
    if not found:
        raise _problem(Place(shown), "no value is filled in", f"write what was read under {_VALUE}")
    return found


def _of_rows(rows: Iterable[tuple[int, list[str]]], locate: Locate) -> Iterator[FilledLimit]:
    heading: list[str] = []
    for line, cells in rows:
        texts = [cell.strip().removeprefix("'") for cell in cells]
        if not any(texts):
            continue
        if not heading:
            heading = [text.casefold() for text in texts]
            _check_heading(heading, locate(line, None))
            continue
        row = dict(zip(heading, texts, strict=False))
        if row.get(_VALUE):
            yield _line(row, locate(line, heading.index(_VALUE)))


def _check_heading(heading: list[str], place: Place) -> None:
    if lacking := [name for name in ("rule", "limit", _VALUE) if name not in heading]:
        wrong = f"the heading lacks {', '.join(lacking)}"
        raise _problem(place, wrong, "earthwall limits FOLDER --format csv writes the sheet to fill in")
    if twice := [name for name in COLUMNS if heading.count(name) > 1]:
        raise _problem(place, f"the heading has {twice[0]} twice", "keep one of the columns")


def _line(row: Mapping[str, str], place: Place) -> FilledLimit:
    rule_set, rule, limit, in_row, in_column = (row.get(name, "") for name in KEYS)
    return FilledLimit(
        place,
        rule=f"{rule_set}/{rule}" if rule_set else rule,
        limit=limit,
        value=row[_VALUE],
        row=in_row,
        column=in_column,
        edition=row.get("edition", ""),
        by=row.get("read by", ""),
        on=row.get("on", ""),
        where=row.get("where", ""),
        authority=row.get("authority", ""),
        reason=row.get("reason", ""),
    )


def _of_form(data: bytes, shown: str) -> Iterator[FilledLimit]:
    """Of each limit value, edition and initials, with who read it in which copy on what day from the head."""
    fields = _form_fields(data, shown)
    head = {name: fields.get(name, "") for name in ("reader", "copy", "day")}
    limits: dict[tuple[str, ...], dict[str, str]] = {}
    for name, text in fields.items():
        if len(parts := name.split("/")) == 4 and text:
            limits.setdefault(tuple(parts[:3]), {})[parts[3]] = text
    for (rule_set, rule, limit), texts in limits.items():
        place = Place(f"{shown}, {rule_set}/{rule} {limit}")
        edition = texts.get("edition") or head["copy"]
        values = [(part, text) for part, text in texts.items() if part == "value" or _CELL.fullmatch(part)]
        if not values:
            wrong = f"{' and '.join(part for part in FIELD_PARTS if part in texts)} stand here, and no value"
            raise _problem(place, wrong, "write the value as read as well, or clear the others")
        for part, text in values:
            cell = _CELL.fullmatch(part)
            row, column = (cell[1], cell[2]) if cell else ("", "")
            yield FilledLimit(
                place,
                rule=f"{rule_set}/{rule}",
                limit=limit,
                value=text,
                row=row,
                column=column,
                edition=edition,
                by=head["reader"],
                on=head["day"],
            )


def _form_fields(data: bytes, shown: str) -> dict[str, str]:
    """The text of each form field. Raises ProblemsFound for a PDF that cannot be read."""
    from pypdf import PdfReader

    advice = "save the filled worksheet again as a PDF with its form fields, or fill in the sheet of --format csv"
    try:
        reader = PdfReader(BytesIO(data), strict=False)
        if reader.is_encrypted:
            raise _problem(Place(shown), "the PDF is encrypted", advice)
        fields = reader.get_form_text_fields() or {}
    except ProblemsFound:
        raise
    except Exception as error:  # a broken file makes the reader of PDFs fail in any way it likes
        message = " ".join(str(error).split())[:160] or type(error).__name__
        raise _problem(Place(shown), f"the PDF cannot be read: {message}", advice) from error
    if not fields or len(fields) > _MOST_FIELDS:
        raise _problem(Place(shown), "the PDF has no form fields of a worksheet", advice)
    texts = {str(name): str(text or "").strip() for name, text in fields.items()}
    if hidden := [one for text in texts.values() for one in hidden_character_problems(text, shown, "csv")]:
        raise ProblemsFound(hidden)
    return texts


def _problem(place: Place, wrong: str, instead: str) -> ProblemsFound:
    return ProblemsFound([Problem(place, "limit-sheet", wrong, instead)])
