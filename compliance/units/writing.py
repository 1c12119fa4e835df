"""Writing values for people: US units with feet, inches and fractions, or SI; both where a limit is quoted."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal

from compliance.record import record
from compliance.units.kinds import ALL_FIGURES, KINDS, Kind
from compliance.units.unit_table import unit

System = Literal["us", "si"]
_SIXTEENTHS = 16
_TRIES = 6  # with none to five decimals more than usual
_FEET_DECIMALS = 2  # an eighth of an inch is a hundredth of a foot
_ROUNDED = 1e-12  # what is left of zero after calculating with it


@record
class Writer:
    """Writes values in one system of units. `system` is what the project says."""

    system: System = "us"

    @property
    def other(self) -> Writer:
        return Writer("si" if self.system == "us" else "us")

    def write(self, value: float, kind_name: str, extra_decimals: int = 0) -> str:
        """`value` (SI) as text with its unit, rounded to the decimals of its kind and to the figures that it allows.
        `extra_decimals` are as many figures more."""
        if not math.isfinite(value):
            return "without limit" if value == math.inf else "not finite"
        kind = KINDS[kind_name]
        symbol, decimals = (kind.us, kind.us_decimals) if self.system == "us" else (kind.si, kind.si_decimals)
        if symbol == "ft-in":
            return _feet_inches(value) if not extra_decimals else _decimal(value, "in", decimals + extra_decimals)
        return _decimal(value, symbol, decimals + extra_decimals, kind.figures + extra_decimals)

    def as_printed(self, value: float, kind_name: str, extra_decimals: int = 0) -> float:
        """The SI value of what `write` prints for `value`."""
        step = self.last_digit(value, kind_name, extra_decimals)
        if not step or not math.isfinite(value):
            return value
        kind = KINDS[kind_name]
        return _to_si(round(self._in_unit(value, kind) / step) * step, self._symbol(kind))

    def last_digit(self, value: float, kind_name: str, extra_decimals: int = 0) -> float:
        """What one unit of the last digit that `write` prints for `value` is worth, in the unit that it prints; a
        sixteenth of an inch where it prints a fraction. 0 for a value without limit."""
        if not math.isfinite(value):
            return 0.0
        kind = KINDS[kind_name]
        us = self.system == "us"
        if us and kind.us == "ft-in" and not extra_decimals:
            return 1 / _SIXTEENTHS
        decimals = (kind.us_decimals if us else kind.si_decimals) + extra_decimals
        return 10.0 ** -_places(self._in_unit(value, kind), decimals, kind.figures + extra_decimals)

    def written_number(self, value: float, kind_name: str) -> float:
        """`value` in the unit that `write` prints, inches for feet and inches."""
        return self._in_unit(value, KINDS[kind_name])

    def _symbol(self, kind: Kind) -> str:
        symbol = kind.us if self.system == "us" else kind.si
        return "in" if symbol == "ft-in" else symbol

    def _in_unit(self, value: float, kind: Kind) -> float:
        symbol = self._symbol(kind)
        return unit(symbol).from_si(value) if symbol else value

    def write_bare(self, value: float, kind_name: str) -> str:
        """The same without its unit, which `unit_symbol` names; feet in decimals."""
        kind = KINDS[kind_name]
        symbol, decimals = (kind.us, kind.us_decimals) if self.system == "us" else (kind.si, kind.si_decimals)
        if not math.isfinite(value):
            return self.write(value, kind_name)
        places = _FEET_DECIMALS if symbol == "ft-in" else decimals
        return _rounded(self.number(value, kind_name), places, kind.figures)

    def both(self, value: float, kind_name: str) -> str:
        """In this system, with the other in brackets: `10 in (254 mm)`."""
        here, there = self.write(value, kind_name), self.other.write(value, kind_name)
        return here if here == there else f"{here} ({there})"

    def pair(self, value: float, limit: float, kind_name: str) -> tuple[str, str]:
        """A value and its limit, with as many decimals as it takes to show that they differ."""
        for extra in range(_TRIES):
            written = self.write(value, kind_name, extra), self.write(limit, kind_name, extra)
            if written[0] != written[1] or math.isclose(value, limit, rel_tol=1e-9):
                return written
        return written

    def number(self, value: float, kind_name: str) -> float:
        """`value` as a bare number in the unit that `unit_symbol` names; feet for ft-in."""
        return unit_value(value, KINDS[kind_name], self.system)

    def decimals(self, kind_name: str, *values: float) -> int | None:
        """Decimals for `number` of these finite SI values of one kind: those of the kind, more where values that differ
        would read alike or one that is not zero would read 0; None where that takes more than a person reads."""
        kind = KINDS[kind_name]
        symbol, usual = (kind.us, kind.us_decimals) if self.system == "us" else (kind.si, kind.si_decimals)
        first = _FEET_DECIMALS if symbol == "ft-in" else usual
        numbers = [self.number(one, kind_name) for one in values]
        for places in range(first, first + _TRIES):
            written = [f"{one:.{places}f}" for one in numbers]
            zero = any(float(text) == 0 and abs(one) > _ROUNDED for text, one in zip(written, numbers, strict=True))
            alike = len(set(written)) == 1 and not math.isclose(
                min(numbers), max(numbers), rel_tol=1e-9, abs_tol=_ROUNDED
            )
            if not zero and not alike:
                return places
        return None

    def unit_symbol(self, kind_name: str) -> str:
        kind = KINDS[kind_name]
        symbol = kind.us if self.system == "us" else kind.si
        return "ft" if symbol == "ft-in" else symbol


def unit_value(value: float, kind: Kind, system: System) -> float:
    symbol = kind.us if system == "us" else kind.si
    if not symbol:
        return value
    return unit("ft" if symbol == "ft-in" else symbol).from_si(value)


def _decimal(value: float, symbol: str, decimals: int, figures: int = ALL_FIGURES) -> str:
    text = _rounded(unit(symbol).from_si(value) if symbol else value, decimals, figures)
    if not symbol:
        return text
    return f"{text}{symbol}" if symbol == "°" else f"{text} {symbol}"


def _rounded(number: float, decimals: int, figures: int) -> str:
    """Without zeros at the end; a number that is not zero never reads 0."""
    places = _places(number, decimals, figures)
    if places > decimals:
        text = f"{number:.2g}"
    else:
        text = f"{round(number, places) if places < 0 else number:.{max(places, 0)}f}"
    if "." in text and "e" not in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text.replace("-", "−")


def _places(number: float, decimals: int, figures: int) -> int:
    """Decimals to print: no more than `figures` leave, and two figures of a number that would read 0."""
    size = abs(number)
    if size > _ROUNDED and round(size, decimals) == 0:
        return 1 - math.floor(math.log10(size))
    return min(decimals, figures - _whole_digits(size))


def _to_si(number: float, symbol: str) -> float:
    return unit(symbol).to_si(number) if symbol else number


def _whole_digits(size: float) -> int:
    """Digits before the decimal point; below 1 the zeros behind it, as a negative number."""
    return math.floor(math.log10(size)) + 1 if size else 0


def _feet_inches(value: float) -> str:
    sixteenths = round(unit("in").from_si(value) * _SIXTEENTHS)
    feet, rest = divmod(abs(sixteenths), 12 * _SIXTEENTHS)
    inches, part = divmod(rest, _SIXTEENTHS)
    fraction = Fraction(part, _SIXTEENTHS)
    words = []
    if feet:
        words.append(f"{feet} ft")
    if inches or part or not feet:
        mixed = f"{inches} {fraction}" if inches and part else str(fraction if part else inches)
        words.append(f"{mixed} in")
    sign = "−" if sixteenths < 0 else ""
    return sign + " ".join(words)
