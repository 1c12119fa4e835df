"""A filled-in sheet of limits: comma-separated values, a workbook, or the form fields of the worksheet."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from io import BytesIO
from pathlib import Path

from compliance.files.characters import hidden_character_problems
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.filled_rows import MOST_BYTES, SheetForm, filled_rows
from compliance.reading.plain_file import read_bytes
from compliance.rules.limits.filled_limit import COLUMNS, FIELD_PARTS, KEYS, FilledLimit

_MOST_FIELDS = 20_000
_CELL = re.compile(r"([0-9]{1,4}),([0-9]{1,4})")
_VALUE = "value as read"
_FORM = SheetForm(("rule", "limit", _VALUE), COLUMNS, "limit-sheet", "earthwall limits FOLDER --format csv")


def read_filled_limits(path: Path, shown: str) -> list[FilledLimit]:
    """Each line that holds a value, in order. Raises ProblemsFound, also where nothing is filled in."""
    data = read_bytes(path, shown, "csv", MOST_BYTES)
    found = list(_of_form(data, shown) if data.startswith(b"%PDF-") else _of_sheet(data, shown))
    if not found:
        raise _problem(Place(shown), "no value is filled in", f"write what was read under {_VALUE}")
    return found


def _of_sheet(data: bytes, shown: str) -> Iterator[FilledLimit]:
    for row in filled_rows(data, shown, _FORM):
        if row.texts.get(_VALUE):
            yield _line(row.texts, row.places[_VALUE])


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
