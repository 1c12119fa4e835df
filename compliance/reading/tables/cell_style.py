"""How a table writes its numbers and its days."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from typing import get_args

from compliance.model.lab import DateOrder
from compliance.record import record

_MARKS = {"comma": ",", "point": ".", "blank": "[ \u00a0\u2009\u202f]", "apostrophe": "['\u2019]"}
_DAY = re.compile(r"([0-9]{1,2})([/.-])([0-9]{1,2})\2([0-9]{4})")
ORDERS: tuple[DateOrder, ...] = get_args(DateOrder)


@record
class CellStyle:
    """`decimal` is the sign before the decimals, `thousands` a pattern of the mark between thousands; `dates` is the
    order in which days are written, besides year-month-day, which is always read."""

    dates: DateOrder | None = None
    decimal: str = "."
    thousands: str = ""

    @property
    def is_plain(self) -> bool:
        return self.decimal == "." and not self.thousands

    def plain_number(self, text: str) -> str | None:
        """`text` with a decimal point and without thousands marks; None where it is no number in this style."""
        grouped = rf"[0-9]{{1,3}}(?:{self.thousands}[0-9]{{3}})+|" if self.thousands else ""
        match = re.fullmatch(rf"(-?)({grouped}[0-9]+)(?:{re.escape(self.decimal)}([0-9]+))?", text)
        if match is None:
            return None
        whole = re.sub("[^0-9]", "", match[2])
        return f"{match[1]}{whole}.{match[3]}" if match[3] else f"{match[1]}{whole}"

    def day(self, text: str) -> date | None:
        """A day in the order of this style; None where it is none."""
        match = _DAY.fullmatch(text)
        if match is None or self.dates is None or match[2] not in self.dates:
            return None
        first, second, year = int(match[1]), int(match[3]), int(match[4])
        month, day = (first, second) if self.dates.startswith("month") else (second, first)
        try:
            return date(year, month, day)
        except ValueError:
            return None


PLAIN = CellStyle()


def style_of(dates: DateOrder | None, decimal: str, thousands: str | None) -> CellStyle:
    """The style that the words of a `lab:` entry mean."""
    return CellStyle(dates, _MARKS[decimal], _MARKS[thousands] if thousands else "")


def only_order(texts: Iterable[str]) -> DateOrder | None:
    """The one order in which all of the days can be read; None where several can, or none, or where no text is a day
    written so."""
    days = [text for text in texts if _DAY.fullmatch(text)]
    if not days:
        return None
    possible = [order for order in ORDERS if all(CellStyle(order).day(text) is not None for text in days)]
    return possible[0] if len(possible) == 1 else None


def written_by_parts(text: str) -> bool:
    """Whether a text is a day in one of the orders that must be told."""
    return _DAY.fullmatch(text) is not None
