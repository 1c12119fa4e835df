"""Openings of the sieves that US laboratories call by a number."""

from __future__ import annotations

import re

from compliance.model.base import MeasureOf, refuse
from compliance.units import Measure

OPENINGS = {
    4: "4.75", 5: "4", 6: "3.35", 7: "2.8", 8: "2.36", 10: "2", 12: "1.7", 14: "1.4", 16: "1.18", 18: "1", 20: "0.85",
    25: "0.71", 30: "0.6", 35: "0.5", 40: "0.425", 45: "0.355", 50: "0.3", 60: "0.25", 70: "0.212", 80: "0.18",
    100: "0.15", 120: "0.125", 140: "0.106", 170: "0.09", 200: "0.075",
}  # fmt: skip
"""In mm, by number; ASTM E11, recalled."""
_NUMBERED = re.compile(r"(?:no\.?|number|#|sieve)\s*(?:no\.?\s*)?([0-9]{1,3})", re.IGNORECASE)


class GrainSizeOf(MeasureOf):
    """A grain size, or the sieve that it just passes: `0.075 mm`, `No. 200`."""

    def __init__(self) -> None:
        super().__init__("grain_size", above_zero=True)

    def _read(self, value: object) -> Measure:
        match = _NUMBERED.fullmatch(value.strip()) if isinstance(value, str) else None
        if match is None:
            return super()._read(value)
        opening = OPENINGS.get(int(match[1]))
        if opening is None:
            known = ", ".join(f"No. {number}" for number in OPENINGS)
            raise refuse("sieve", f"no sieve is called {value!r}", f"write its opening in mm, or one of {known}")
        return super()._read(f"{opening} mm")
