"""Writing values for people: US units with feet, inches and fractions, or SI; both where a limit is quoted."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal

from compliance.record import record
from compliance.units.kinds import KINDS, Kind
from compliance.units.unit_table import unit

System = Literal["us", "si"]
_SIXTEENTHS = 16
_MOST_DECIMALS = 6


@record
class Writer:
    """Writes values in one system of units. `system` is what the project says."""

    system: System = "us"

    @property
    def other(self) -> Writer:
        return Writer("si" if self.system == "us" else "us")

    def write(self, value: float, kind_name: str, extra_decimals: int = 0) -> str:
        """`value` (SI) as text with its unit, rounded to the decimals of its kind."""
        if not math.isfinite(value):
            return "without limit" if value > 0 else "not finite"
        kind = KINDS[kind_name]
        symbol, decimals = (kind.us, kind.us_decimals) if self.system == "us" else (kind.si, kind.si_decimals)
        if symbol == "ft-in":
            return _feet_inches(value) if not extra_decimals else _decimal(value, "in", 1 + extra_decimals)
        return _decimal(value, symbol, min(decimals + extra_decimals, _MOST_DECIMALS + decimals))

    def both(self, value: float, kind_name: str) -> str:
        """In this system, with the other in brackets: `10 in (254 mm)`."""
        here, there = self.write(value, kind_name), self.other.write(value, kind_name)
        return here if here == there else f"{here} ({there})"

    def pair(self, value: float, limit: float, kind_name: str) -> tuple[str, str]:
        """A value and its limit, with as many decimals as it takes to show that they differ."""
        for extra in range(_MOST_DECIMALS):
            written = self.write(value, kind_name, extra), self.write(limit, kind_name, extra)
            if written[0] != written[1] or math.isclose(value, limit, rel_tol=1e-9):
                return written
        return written

    def number(self, value: float, kind_name: str) -> float:
        """`value` as a bare number in the unit that `unit_symbol` names; feet for ft-in."""
        return unit_value(value, KINDS[kind_name], self.system)

    def unit_symbol(self, kind_name: str) -> str:
        kind = KINDS[kind_name]
        symbol = kind.us if self.system == "us" else kind.si
        return "ft" if symbol == "ft-in" else symbol


def unit_value(value: float, kind: Kind, system: System) -> float:
    symbol = kind.us if system == "us" else kind.si
    if not symbol:
        return value
    return unit("ft" if symbol == "ft-in" else symbol).from_si(value)


def _decimal(value: float, symbol: str, decimals: int) -> str:
    number = unit(symbol).from_si(value) if symbol else value
    text = f"{number:.{decimals}f}"
    if decimals and "." in text:
        text = text.rstrip("0").rstrip(".")
    if text in ("-0", "0") and number and not math.isclose(number, 0.0, abs_tol=1e-12):
        text = f"{number:.2g}"
    text = text.replace("-0", "0") if text == "-0" else text.replace("-", "−")
    if not symbol:
        return text
    return f"{text}{symbol}" if symbol == "°" else f"{text} {symbol}"


def _feet_inches(value: float) -> str:
    sixteenths = round(unit("in").from_si(abs(value)) * _SIXTEENTHS)
    feet, rest = divmod(sixteenths, 12 * _SIXTEENTHS)
    inches, part = divmod(rest, _SIXTEENTHS)
    fraction = Fraction(part, _SIXTEENTHS)
    words = []
    if feet:
        words.append(f"{feet} ft")
    if inches or part or not feet:
        mixed = f"{inches} {fraction}" if inches and part else str(fraction if part else inches)
        words.append(f"{mixed} in")
    sign = "−" if value < 0 and sixteenths else ""
    return sign + " ".join(words)
