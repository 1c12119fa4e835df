"""What stands in an equation: quantities with their kind of measure, constants, numbers of the data, series."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from compliance.record import record
from compliance.steps import Given

Number = float | Given
Input = Number | Sequence[Number] | None
"""A number in SI, or one with its own meaning; several for a series."""
Sign = Literal["any", "above zero", "not below zero", "left out"]


def need_positive(**values: float) -> None:
    """Raises ValueError naming the first value that is not a finite number above zero."""
    for name, value in values.items():
        if not (value > 0 and math.isfinite(value)):
            raise ValueError(f"{name.replace('_', ' ')} must be above zero, not {value!r}")


def need_not_negative(**values: float) -> None:
    """Raises ValueError naming the first value that is below zero or not finite."""
    for name, value in values.items():
        if not (value >= 0 and math.isfinite(value)):
            raise ValueError(f"{name.replace('_', ' ')} must not be below zero, not {value!r}")


@record
class Symbol:
    """A quantity: its symbol in print, its kind of measure, what it means. `sign` says which numbers it may be; where
    it is left out, the size alone counts."""

    symbol: str
    kind: str = "ratio"
    meaning: str = ""
    sign: Sign = "any"
    is_parameter = True
    several = False

    def number(self, name: str, value: Input) -> float | tuple[float, ...]:
        """What the expression is worked out with. Raises ValueError for a number it may not be."""
        return self._number(name, value)

    def givens(self, name: str, value: Input) -> dict[str, Given]:
        """What is printed for it, by its name in the expression."""
        return {name: self._given(self.symbol, value)}

    def _number(self, name: str, value: Input) -> float:
        found = value if value.__class__ is float else _plain(value)
        sign = self.sign
        if sign == "above zero" and not 0 < found < math.inf:
            need_positive(**{name: found})
        if sign == "not below zero" and not 0 <= found < math.inf:
            need_not_negative(**{name: found})
        return abs(found) if sign == "left out" else found

    def _given(self, symbol: str, value: Input) -> Given:
        number = abs(_plain(value)) if self.sign == "left out" else _plain(value)
        if isinstance(value, Given):
            return Given(value.symbol if self.several else symbol, number, value.kind, value.meaning or self.meaning)
        return Given(symbol, number, self.kind, self.meaning)


@record
class Series(Symbol):
    """Several quantities alike, `w1`, `w2` in print; or by their own symbols, where they are handed over as `Given`."""

    several = True

    def number(self, name: str, value: Input) -> tuple[float, ...]:
        assert isinstance(value, Sequence)
        return tuple(self._number(name, one) for one in value)

    def givens(self, name: str, value: Input) -> dict[str, Given]:
        assert isinstance(value, Sequence)
        return {f"{name}.{place}": self._given(f"{self.symbol}{place}", one) for place, one in enumerate(value, 1)}


@record
class Numeral(Symbol):
    """A number of the data that stands as a number in print, as in 1.2 × D."""

    symbol: str = ""

    def givens(self, name: str, value: Input) -> dict[str, Given]:
        return {name: Given("", f"{_plain(value):g}")}


@record
class Numerals(Series):
    """Several numbers of the data."""

    symbol: str = ""

    def givens(self, name: str, value: Input) -> dict[str, Given]:
        assert isinstance(value, Sequence)
        return {f"{name}.{place}": Given("", f"{_plain(one):g}") for place, one in enumerate(value, 1)}


@record
class Constant(Symbol):
    """A number that is always the same; `printed` stands for it among the numbers."""

    value: float = 0.0
    printed: str = ""
    is_parameter = False

    def number(self, name: str, value: Input) -> float:
        return self.value

    def givens(self, name: str, value: Input) -> dict[str, Given]:
        return {name: Given(self.symbol, self.printed, "ratio", self.meaning)}


def _plain(value: Input) -> float:
    found = value.value if isinstance(value, Given) else value
    assert isinstance(found, float | int) and not isinstance(found, bool)
    return float(found)


def positive(symbol: str, kind: str = "ratio", meaning: str = "") -> Symbol:
    """A quantity that must be above zero."""
    return Symbol(symbol, kind, meaning, "above zero")


def not_negative(symbol: str, kind: str = "ratio", meaning: str = "") -> Symbol:
    """A quantity that must not be below zero."""
    return Symbol(symbol, kind, meaning, "not below zero")


def size(symbol: str, kind: str = "ratio", meaning: str = "") -> Symbol:
    """A quantity of which the sign does not count."""
    return Symbol(symbol, kind, meaning, "left out")


STANDARD_GRAVITY = 9.80665  # m/s², by definition
GRAVITY = Constant(
    "g", "acceleration", "9.80665 m/s², which makes a pound weigh a pound-force",
    value=STANDARD_GRAVITY, printed="standard gravity",
)  # fmt: skip
PI = Constant("π", value=math.pi, printed="π")
