"""Openings of the sieves that US laboratories call by a number."""

from __future__ import annotations

import re

OPENINGS = {
    4: "4.75", 5: "4", 6: "3.35", 7: "2.8", 8: "2.36", 10: "2", 12: "1.7", 14: "1.4", 16: "1.18", 18: "1", 20: "0.85",
    25: "0.71", 30: "0.6", 35: "0.5", 40: "0.425", 45: "0.355", 50: "0.3", 60: "0.25", 70: "0.212", 80: "0.18",
    100: "0.15", 120: "0.125", 140: "0.106", 170: "0.09", 200: "0.075",
}  # fmt: skip
"""In mm, by number; ASTM E11, recalled."""
_NUMBERED = re.compile(r"(?:no\.?|number|#|sieve)\s*(?:no\.?\s*)?([0-9]{1,3})", re.IGNORECASE)


def sieve_number(text: str) -> int | None:
    """The number of a sieve as laboratories write it: `No. 200`, `#200`; None where a text is no such name."""
    match = _NUMBERED.fullmatch(text.strip())
    return int(match[1]) if match else None
