"""Taking typed values out of the mapping of a reference file, with errors that name the place in it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import NoReturn

from compliance.findings import Standing
from compliance.steps import Source
from compliance.units import MeasureError, measure


class ReferenceValueError(ValueError):
    """A reference file lacks a value or holds the wrong kind of value; the text names the place."""


class Part:
    """A mapping inside a reference file and the path to it, as `values.exposures.B`.

    Every method raises ReferenceValueError where the value is missing or of another kind.
    """

    def __init__(self, mapping: object, path: str = "values") -> None:
        self.path = path
        if not isinstance(mapping, Mapping):
            raise ReferenceValueError(f"{path} must hold keys with values")
        self._mapping: Mapping[object, object] = mapping

    def __iter__(self) -> Iterator[str]:
        return iter(str(key) for key in self._mapping)

    def __contains__(self, key: str) -> bool:
        return key in self._mapping

    def refuse(self, key: str, wrong: str) -> NoReturn:
        raise ReferenceValueError(f"{self.path}.{key} {wrong}")

    def value(self, key: str) -> object:
        if key not in self._mapping:
            self.refuse(key, f"is missing; there are: {', '.join(self) or 'no keys'}")
        return self._mapping[key]

    def part(self, key: str) -> Part:
        return Part(self.value(key), f"{self.path}.{key}")

    def items(self, key: str) -> list[object]:
        value = self.value(key)
        if not isinstance(value, list):
            self.refuse(key, "must be a list")
        return value

    def parts(self, key: str) -> tuple[Part, ...]:
        """A list of mappings; an empty list is allowed."""
        return tuple(Part(item, f"{self.path}.{key}.{place}") for place, item in enumerate(self.items(key), start=1))

    def text(self, key: str) -> str:
        value = self.value(key)
        if not isinstance(value, str) or not value:
            self.refuse(key, "must be text")
        return value

    def texts(self, key: str) -> tuple[str, ...]:
        value = self.items(key)
        if not value or not all(isinstance(item, str) and item for item in value):
            self.refuse(key, "must be a list of texts")
        return tuple(map(str, value))

    def number(self, key: str) -> float:
        return self._number(key, self.value(key))

    def numbers(self, key: str) -> tuple[float, ...]:
        """A list of numbers, not empty."""
        value = self.items(key)
        if not value:
            self.refuse(key, "must be a list of numbers")
        return tuple(self._number(key, item) for item in value)

    def cells(self, key: str, count: int, blank: str) -> tuple[float | None, ...]:
        """A row of `count` numbers, each None where it says `blank`; the word `blank` alone is a row of blanks."""
        if self.value(key) == blank:
            return (None,) * count
        cells = self.items(key)
        if len(cells) != count:
            self.refuse(key, f"must have {count} cells, has {len(cells)}")
        return tuple(None if cell == blank else self._number(key, cell) for cell in cells)

    def rising(self, key: str) -> tuple[float, ...]:
        """A list of numbers, each above the one before."""
        value = self.numbers(key)
        if any(after <= before for before, after in pairwise(value)):
            self.refuse(key, "must rise from each number to the next")
        return value

    def measure(self, key: str, kind: str) -> float:
        """A measure written as text, as `15 ft`, in SI units."""
        try:
            return measure(self.text(key), kind).si
        except MeasureError as error:
            self.refuse(key, str(error))

    def standing(self) -> Standing:
        """The part's own `standing`."""
        value = self.text("standing")
        if value not in list(Standing):
            self.refuse("standing", f"must be one of {', '.join(Standing)}, not {value!r}")
        return Standing(value)

    def source(self, standing: Standing | None = None, key: str = "source") -> Source:
        """The part's own `source`, doubtful where its standing, or the one given, wants confirming."""
        return Source(self.text(key), (standing or self.standing()).wants_confirming)

    def _number(self, key: str, value: object) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
            self.refuse(key, f"must be a number, not {value!r}")
        return float(value)


def need_not_negative(**values: float) -> None:
    """Raises ValueError, naming the argument, for a value that is below zero or not finite."""
    for name, value in values.items():
        if not (math.isfinite(value) and value >= 0.0):
            raise ValueError(f"{name} must be a finite number not below zero, not {value!r}")


def at_least(value: float, bound: float) -> bool:
    """`value` is at or above `bound`; a value that differs only in its last digits counts as at the bound."""
    return value >= bound or math.isclose(value, bound, rel_tol=1e-9)


def at_most(value: float, bound: float) -> bool:
    """`value` is at or below `bound`; a value that differs only in its last digits counts as at the bound."""
    return value <= bound or math.isclose(value, bound, rel_tol=1e-9)
