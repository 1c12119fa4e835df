"""What a column of a table holds, and reading one cell of it."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date

from compliance.model.lab_columns import ColumnSpec
from compliance.reading.tables.cell_style import PLAIN, CellStyle, written_by_parts
from compliance.refused import MOST_PROBLEMS, RefusedError, nearest, one_of, shortened
from compliance.units import Kind, Measure, Unit
from compliance.units.reach import out_of_reach

Value = Measure | date | str | None

_NUMBER = re.compile(r"(-?)[0-9]{1,15}(?:\.[0-9]{1,20})?")
_COMMA = re.compile(r"-?[0-9.]*,[0-9]+(?:[.,][0-9]+)*")
_NOT_FINITE = frozenset({"nan", "inf", "infinity", "#num!", "#div/0!", "#value!", "#n/a"})
_COMMA_ADVICE = "write a decimal point and no thousands mark, or say decimal: comma under lab: for the table"
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


class CellReader(dict[str, Value]):
    """Reads the cells of one column; each text is read once. Texts that are refused stand in `refused`."""

    def __init__(self, spec: ColumnSpec, unit: Unit | None) -> None:
        super().__init__()
        self.refused: dict[str, RefusedError] = {}
        self.style = PLAIN
        self.is_date = spec.what == "date"
        self._may_be_empty = spec.may_be_empty
        self._read = self._reader_for(spec, unit)

    def __missing__(self, text: str) -> Value:
        value: Value = None
        if len(self.refused) > MOST_PROBLEMS:
            # More than anyone will be told of, so the table is refused whatever stands here.
            return None
        try:
            if text:
                value = self._read(text)
            elif not self._may_be_empty:
                raise RefusedError("csv-empty", "this cell is empty", "fill it in")
        except RefusedError as refused:
            self.refused[text] = refused
        self[text] = value
        return value

    def _reader_for(self, spec: ColumnSpec, unit: Unit | None) -> Callable[[str], Value]:
        kind = spec.kind
        if kind is not None:
            empty_hint = ", or leave the cell empty" if spec.may_be_empty else ""
            return lambda text: read_number(text, kind=kind, unit=unit, empty_hint=empty_hint, style=self.style)
        if spec.what == "date":
            return lambda text: read_date(text, self.style)
        if spec.what == "choice":
            return lambda text: read_choice(text, spec.choices)
        return str


def read_number(
    text: str, kind: Kind, unit: Unit | None, empty_hint: str = "", style: CellStyle = PLAIN
) -> Measure:  # fmt: skip
    """A decimal number written in `style`, in `unit` (None: a number without one), as a measure of `kind`, SI value
    inside.

    Raises RefusedError: `csv-decimal-comma`, `csv-not-finite`, `csv-number`, `csv-negative`, `csv-not-whole`,
    `measure-size`.
    """
    if not style.is_plain:
        text = _restyled(text, style, empty_hint)
    match = _NUMBER.fullmatch(text)
    if match is None:
        raise _no_number(text, empty_hint)
    if match[1] and not kind.negative:
        raise RefusedError("csv-negative", f"{text!r} is below zero", f"{kind.called} cannot be: check the sign")
    number = float(text)
    if kind.name == "count" and not number.is_integer():
        raise RefusedError("csv-not-whole", f"{text!r} is no whole number", "write a whole number")
    if unit is None:
        return Measure(number, "", text)
    value = unit.to_si(number)
    if out_of_reach(value, kind.name):
        wrong = f"nothing has {kind.called} of {text} {unit.symbol}"
        raise RefusedError("measure-size", wrong, "check the digits, and the unit in the heading")
    return Measure(value, unit.symbol, f"{text} {unit.symbol}")


def _restyled(text: str, style: CellStyle, empty_hint: str) -> str:
    plain = style.plain_number(text)
    if plain is None:
        sign = "comma" if style.decimal == "," else "point"
        wrong = f"{shortened(text)} is not a number with a decimal {sign}, as the table is said to have"
        raise RefusedError(
            "csv-number", wrong, f"correct the cell, or decimal: and thousands: of the table{empty_hint}"
        )
    return plain


def _no_number(text: str, empty_hint: str) -> RefusedError:
    wording = shortened(text)
    if text.lstrip("+-").casefold() in _NOT_FINITE:
        return RefusedError("csv-not-finite", f"{wording} is not a finite number", f"write a number{empty_hint}")
    if _COMMA.fullmatch(text):
        return RefusedError("csv-decimal-comma", f"{wording} has a comma", _COMMA_ADVICE)
    advice = f"write digits and a decimal point, as in 12.5, with the unit in the heading{empty_hint}"
    return RefusedError("csv-number", f"{wording} is not a plain decimal number", advice)


def read_date(text: str, style: CellStyle = PLAIN) -> date:
    """A date as ISO 8601 writes it, year-month-day, or in the order of `style`. Raises RefusedError: `csv-date`."""
    found = style.day(text)
    if found is not None:
        return found
    if written_by_parts(text):
        wrong = f"{shortened(text)} can be read with the day or with the month first"
        if style.dates:
            wrong = f"{shortened(text)} is no day written {style.dates}, as the table is said to have them"
        advice = "write year-month-day, as in 2024-05-01, or say under lab: how the table has it: dates: month/day/year"
        raise RefusedError("csv-date", wrong, advice)
    if not _DATE.fullmatch(text):
        raise RefusedError("csv-date", f"{shortened(text)} is not a date", "write year-month-day, as in 2024-05-01")
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise RefusedError("csv-date", f"there is no day {text}", "check the month and the day") from error


def read_choice(text: str, choices: tuple[str, ...]) -> str:
    """One of `choices`, as it is spelled there. Raises RefusedError: `csv-choice`."""
    if text in choices:
        return text
    near = nearest(text, choices)
    advice = f"did you mean {near}? " if near else ""
    raise RefusedError(
        "csv-choice", f"{shortened(text)} is none of the words for this column", advice + one_of(choices)
    )
