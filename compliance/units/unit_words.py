"""Names of units as people say them, and the spelling that is read: for the hint where a unit is not known."""

from __future__ import annotations

from compliance.units.unit_table import Dimension, unit

# What is said of two kinds of measure stands with both, the commoner first.
_SPOKEN: dict[str, str] = {
    "foot": "ft", "feet": "ft", "inch": "in", "inches": "in", "yard": "yd",
    "meter": "m", "metre": "m", "centimeter": "cm", "centimetre": "cm", "millimeter": "mm", "millimetre": "mm",
    "pound": "lb lbf", "kilogram": "kg", "kilo": "kg", "gram": "g", "tonne": "t",
    "liter": "L", "litre": "L", "gallon": "gal",
    "hour": "h", "hr": "h", "minute": "min", "second": "s", "sec": "s",
    "newton": "N", "kilonewton": "kN", "pascal": "Pa", "kilopascal": "kPa", "megapascal": "MPa",
    "degree": "deg degC", "percent": "%", "kg/cm2": "kgf/cm2", "kg/cm²": "kgf/cm2", "g/cc": "g/cm3",
}  # fmt: skip


def spelling_of(word: str, dimension: Dimension) -> str | None:
    """The unit that `word` names, in one or many and in whatever capitals; None for no word of ours.

    Of a word for two, such as the pound of mass and that of force, the one that is a `dimension`.
    """
    plain = word.lower()
    meant = (_SPOKEN.get(plain) or _SPOKEN.get(plain.removesuffix("s")) or "").split()
    return next((symbol for symbol in meant if unit(symbol).dimension == dimension), next(iter(meant), None))
