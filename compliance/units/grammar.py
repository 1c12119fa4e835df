"""What people write for a measure, read strictly.

The whole text must match: a number (`16`, `3.5`, `3 1/2`, `3-1/2`) and one unit of our list, or feet and
inches (`8 ft 6 in`, `8'-6"`). Anything else is refused with what to write instead; nothing is guessed.
"""

from __future__ import annotations

import re
from difflib import get_close_matches

from compliance.record import record
from compliance.units.kinds import KINDS, Kind
from compliance.units.reach import out_of_reach
from compliance.units.unit_table import NUMBER, SPELLINGS, Unit, unit
from compliance.units.unit_words import spelling_of

_DIGITS = r"[0-9]{1,12}(?:\.[0-9]{1,12})?"
_FRACTION = r"[0-9]{1,4}/[0-9]{1,4}"
_NUMBER = rf"(?:[0-9]{{1,6}}[ -]{_FRACTION}|{_FRACTION}|{_DIGITS})"
_MEASURE = re.compile(rf"(?P<sign>-?)(?P<number>{_NUMBER}) ?(?P<unit>[^\s0-9.,+-][^\s]*)")
_FEET_INCHES = re.compile(rf"(?P<sign>-?)(?P<feet>[0-9]{{1,6}}) ?(?:ft|')[ -]?(?P<inches>{_NUMBER}) ?(?:in|\")")
_TICKS = re.compile(rf"(?P<sign>-?)(?P<number>{_NUMBER}) ?(?P<unit>['\"])")
_BARE = re.compile(rf"-?{_NUMBER}")
_TICK_UNITS = {"'": "ft", '"': "in"}
_LONGEST = 60


class MeasureError(ValueError):
    """A text that is not a measure of the kind asked for. `wrong` and `instead` go into a Problem."""

    def __init__(self, code: str, wrong: str, instead: str) -> None:
        self.code, self.wrong, self.instead = code, wrong, instead
        super().__init__(f"{wrong} ({instead})")


@record
class Measure:
    """A value with the text it was written as. `si` is in metres, kilograms, seconds and kelvins."""

    si: float
    unit: str
    text: str

    def __str__(self) -> str:
        return self.text


_FRACTION_PARTS = re.compile(r"(?:([0-9]{1,15}) +)?([0-9]{1,15})/([0-9]{1,15})")


def parse_number(text: str) -> float | None:
    """`16`, `3.5`, `1/2`, `3 1/2` or `3-1/2` as a float; None where the text is none of these."""
    if "/" not in text:
        return float(text) if re.fullmatch(_DIGITS, text) else None
    parts = _FRACTION_PARTS.fullmatch(text.replace("-", " "))
    if parts is None or int(parts[3]) == 0:
        return None
    return int(parts[1] or 0) + int(parts[2]) / int(parts[3])


def parse_measure(text: str, kind: Kind) -> Measure:
    """Read `text` as a measure of `kind`. Raises MeasureError."""
    cleaned = text.strip()
    if len(cleaned) > _LONGEST:
        wrong = f"a text of {len(cleaned)} characters, {cleaned[:_LONGEST]!r} and so on, is not a measure"
        raise MeasureError("measure-form", wrong, f"write for example {kind.example}")
    feet = _FEET_INCHES.fullmatch(cleaned)
    if feet:
        return _feet_and_inches(cleaned, feet, kind)
    match = _MEASURE.fullmatch(cleaned) or _TICKS.fullmatch(cleaned)
    if not match:
        raise _not_a_measure(cleaned, kind)
    symbol = _TICK_UNITS.get(match["unit"], match["unit"])
    number = parse_number(match["number"])
    if number is None:
        raise MeasureError("measure-number", f"{cleaned!r} divides by zero", f"write for example {kind.example}")
    return _measured(cleaned, sign=match["sign"], number=number, found=_known_unit(symbol, cleaned, kind), kind=kind)


def _measured(text: str, sign: str, number: float, found: Unit, kind: Kind) -> Measure:
    if found.dimension != kind.dimension or _angle_or_share(found, kind):
        raise MeasureError(
            "measure-dimension",
            f"{text!r} is not {kind.called}",
            f"write for example {kind.example}",
        )
    if sign and not kind.negative:
        raise MeasureError("measure-negative", f"{text!r} is below zero", f"write for example {kind.example}")
    value = found.to_si(-number if sign else number)
    if out_of_reach(value, kind.name):
        wrong = f"nothing has {kind.called} of {text!r}"
        raise MeasureError("measure-size", wrong, f"check the digits and the unit; write for example {kind.example}")
    return Measure(value, found.symbol, text)


def _angle_or_share(found: Unit, kind: Kind) -> bool:
    """Angles and shares are both plain numbers to the dimension check: tell them apart by the unit."""
    if found.dimension != NUMBER:
        return False
    return (found.symbol == "%") != (kind.si == "%")


def _known_unit(symbol: str, text: str, kind: Kind) -> Unit:
    if symbol in SPELLINGS:
        return unit(symbol)
    alike = [known for known in SPELLINGS if known.lower() == symbol.lower()] or get_close_matches(symbol, SPELLINGS)
    near = spelling_of(symbol, kind.dimension) or next(iter(alike), None)
    hint = f"did you mean {near!r}? write for example {kind.example}" if near else f"write for example {kind.example}"
    raise MeasureError("measure-unit", f"{text!r} has the unknown unit {symbol!r}", hint)


def _feet_and_inches(text: str, match: re.Match[str], kind: Kind) -> Measure:
    inches = parse_number(match["inches"])
    if inches is None or inches >= 12:
        raise MeasureError(
            "measure-inches",
            f"{text!r} has inches that are not below 12",
            "carry whole feet over, as in 9 ft 2 in for 8 ft 14 in",
        )
    total = unit("in").to_si(int(match["feet"]) * 12 + inches)
    return _measured(
        text, sign=match["sign"], number=total, found=Unit("ft", 1.0, 0.0, unit("ft").dimension), kind=kind
    )


def _not_a_measure(text: str, kind: Kind) -> MeasureError:
    if _BARE.fullmatch(text):
        return MeasureError("measure-no-unit", f"{text!r} has no unit", f"write for example {kind.example}")
    if re.search(r"[0-9],[0-9]", text):
        return MeasureError(
            "measure-comma",
            f"{text!r} has a comma",
            f"write a decimal point and no thousands mark, for example {kind.example}",
        )
    return MeasureError("measure-form", f"{text!r} is not a measure", f"write for example {kind.example}")


def measure(text: str, kind_name: str) -> Measure:
    """`parse_measure` by the name of the kind, for rule sets, tests and defaults in code."""
    return parse_measure(text, KINDS[kind_name])


def kind_of_text(text: str) -> str | None:
    """The kind that a measure's own unit suggests: `10 in` a thickness, `8 ft` a length. None for no measure."""
    cleaned = text.strip()
    if len(cleaned) > _LONGEST:
        return None
    if _FEET_INCHES.fullmatch(cleaned):
        return "length"
    match = _MEASURE.fullmatch(cleaned) or _TICKS.fullmatch(cleaned)
    symbol = match and _TICK_UNITS.get(match["unit"], match["unit"])
    if symbol not in SPELLINGS:
        return None
    found = unit(symbol)
    fitting = [
        kind for kind in KINDS.values() if kind.dimension == found.dimension and not _angle_or_share(found, kind)
    ]
    exact = [kind for kind in fitting if found.factor in (_factor(kind.us), _factor(kind.si))]
    return (exact or fitting)[0].name if fitting else None


def _factor(symbol: str) -> float | None:
    if symbol == "ft-in":
        return unit("ft").factor
    return unit(symbol).factor if symbol else None
