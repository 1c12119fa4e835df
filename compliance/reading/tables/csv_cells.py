"""What a column of a table holds, and reading one cell of it."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date

from compliance.model.lab_columns import ColumnSpec
from compliance.refused import MOST_PROBLEMS, RefusedError, nearest, one_of, shortened
from compliance.units import Kind, Measure, Unit
from compliance.units.reach import out_of_reach

Value = Measure | date | str | None

_NUMBER = re.compile(r"(-?)[0-9]{1,15}(?:\.[0-9]{1,20})?")
_COMMA = re.compile(r"-?[0-9.]*,[0-9]+(?:[.,][0-9]+)*")
_NOT_FINITE = frozenset({"nan", "inf", "infinity", "#num!", "#div/0!", "#value!", "#n/a"})
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


class CellReader(dict[str, Value]):
    """Reads the cells of one column; each text is read once. Texts that are refused stand in `refused`."""

    def __init__(self, spec: ColumnSpec, unit: Unit | None) -> None:
        super().__init__()
        self.refused: dict[str, RefusedError] = {}
        self._may_be_empty = spec.may_be_empty
        self._read = _reader_for(spec, unit)

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


def _reader_for(spec: ColumnSpec, unit: Unit | None) -> Callable[[str], Value]:
    kind = spec.kind
    if kind is not None:
        empty_hint = ", or leave the cell empty" if spec.may_be_empty else ""
        return lambda text: read_number(text, kind, unit, empty_hint)
    if spec.what == "date":
        return read_date
    if spec.what == "choice":
        return lambda text: read_choice(text, spec.choices)
    return str


def read_number(text: str, kind: Kind, unit: Unit | None, empty_hint: str = "") -> Measure:
    """A plain decimal number in `unit` (None: a number without one) as a measure of `kind`, SI value inside.

    Raises RefusedError: `csv-decimal-comma`, `csv-not-finite`, `csv-number`, `csv-negative`, `csv-not-whole`,
    `measure-size`.
    """
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


def _no_number(text: str, empty_hint: str) -> RefusedError:
    wording = shortened(text)
    if text.lstrip("+-").casefold() in _NOT_FINITE:
        return RefusedError("csv-not-finite", f"{wording} is not a finite number", f"write a number{empty_hint}")
    if _COMMA.fullmatch(text):
        return RefusedError(
            "csv-decimal-comma", f"{wording} has a comma", "write a decimal point and no thousands mark"
        )
    advice = f"write digits and a decimal point, as in 12.5, with the unit in the heading{empty_hint}"
    return RefusedError("csv-number", f"{wording} is not a plain decimal number", advice)


def read_date(text: str) -> date:
    """A date as ISO 8601 writes it, year-month-day. Raises RefusedError: `csv-date`."""
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
