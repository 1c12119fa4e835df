"""Units among words: the names people say for them, with the spelling that is read, and which words belong together."""

from __future__ import annotations

import re

from compliance.units.unit_table import SPELLINGS, Dimension, unit

_UNITS = "|".join(re.escape(symbol) for symbol in sorted(SPELLINGS, key=len, reverse=True))
_TOGETHER = re.compile(
    rf"(?<![^\s(−±])([0-9][0-9.]*|[0-9]+/[0-9]+|No\.) (?=(?:{_UNITS})(?![\w/²³])|[0-9]+/[0-9]|(?<=No\. )[0-9])"
)
_TIED = "\u00a0"
_AND_TIED = rf"\1{_TIED}"

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


def words_of(text: str) -> tuple[str, ...]:
    """What a line may be broken between: a number and its unit count as one word, and so does "No. 4"."""
    words = _TOGETHER.sub(_AND_TIED, text).split(" ")
    return tuple([word.replace(_TIED, " ") for word in words if word])
