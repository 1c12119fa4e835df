"""Names of units as people say them, and the spelling that is read: for the hint where a unit is not known."""

from __future__ import annotations

_SAID: dict[str, str] = {
    "foot": "ft", "feet": "ft", "inch": "in", "inches": "in", "yard": "yd",
    "meter": "m", "metre": "m", "centimeter": "cm", "centimetre": "cm", "millimeter": "mm", "millimetre": "mm",
    "pound": "lb", "kilogram": "kg", "kilo": "kg", "gram": "g", "tonne": "t",
    "liter": "L", "litre": "L", "gallon": "gal",
    "hour": "h", "hr": "h", "minute": "min", "second": "s", "sec": "s",
    "newton": "N", "kilonewton": "kN", "pascal": "Pa", "kilopascal": "kPa", "megapascal": "MPa",
    "degree": "deg", "percent": "%",
}  # fmt: skip


def spelling_of(word: str) -> str | None:
    """The unit that `word` names, in one or many and in whatever capitals; None for no word of ours."""
    plain = word.lower()
    return _SAID.get(plain) or _SAID.get(plain.removesuffix("s"))
