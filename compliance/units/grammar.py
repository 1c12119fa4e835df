"""What people write for a measure, read strictly.

The whole text must match: a number (`16`, `3.5`, `3 1/2`, `3-1/2`) and one unit of our list, or feet and
inches (`8 ft 6 in`, `8'-6"`). What people write beyond that and can mean one thing only is rewritten first
(`everyday.py`). Anything else is refused with what to write instead; nothing is guessed.
"""

from __future__ import annotations

import math
import re
from difflib import get_close_matches

from compliance.record import record
from compliance.units.everyday import in_plain_characters, in_strict_grammar, is_feet_and_unclear, rise_on_twelve
from compliance.units.kinds import KINDS, Kind, dimension_of
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


def parse_measure(text: str, kind: Kind, *, pitch: bool = False, commas: bool = True) -> Measure:
    """Read `text` as a measure of `kind`. `pitch`: an angle may be the pitch of a roof, `6:12`; `commas`: a comma may
    part the thousands of a US unit. Raises MeasureError."""
    written = text.strip()
    if len(written) > _LONGEST:
        wrong = f"a text of {len(written)} characters, {written[:_LONGEST]!r} and so on, is not a measure"
        raise MeasureError("measure-form", wrong, f"write for example {kind.example}")
    strict = _strictly(written, kind, written)
    if strict is not None:
        return strict
    plain = in_plain_characters(written)
    rise = rise_on_twelve(plain) if pitch and kind.name == "angle" else None
    if rise is not None:
        return Measure(math.atan2(rise, 12), "deg", written)
    rewritten = in_strict_grammar(plain, kind, commas=commas)
    found = _strictly(rewritten, kind, written) if rewritten else None
    if found is None:
        raise _not_a_measure(written, plain, kind)
    return found


def _strictly(text: str, kind: Kind, written: str) -> Measure | None:
    """`text` by the strict grammar, with `written` as its text; None where it does not match or has no known unit."""
    feet = _FEET_INCHES.fullmatch(text)
    if feet:
        return _feet_and_inches(written, feet, kind)
    match = _MEASURE.fullmatch(text) or _TICKS.fullmatch(text)
    symbol = match and _TICK_UNITS.get(match["unit"], match["unit"])
    if not match or symbol not in SPELLINGS or _is_force_in_pounds(symbol, kind):
        return None
    number = parse_number(match["number"])
    if number is None:
        raise MeasureError("measure-number", f"{written!r} divides by zero", f"write for example {kind.example}")
    return _measured(written, sign=match["sign"], number=number, found=unit(symbol), kind=kind)


def _is_force_in_pounds(symbol: str, kind: Kind) -> bool:
    return symbol == "lb" and kind.dimension == dimension_of("force")


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


def _unknown_unit(symbol: str, text: str, kind: Kind) -> MeasureError:
    """Only units of the right dimension that begin alike are near, so that no hint proposes another measure or another
    prefix; to a mass none is near where a force is wanted, nor to a letter."""
    fitting = [one for one in SPELLINGS if unit(one).dimension == kind.dimension]
    unclear = len(symbol) == 1 or symbol.startswith(("kg", "g/", "t/"))
    begin_alike = [] if unclear else [one for one in fitting if one[0] == symbol[0]]
    alike = [one for one in SPELLINGS if one.lower() == symbol.lower() and (len(one) > 1 or one in fitting)]
    alike = alike or get_close_matches(symbol, begin_alike)
    near = spelling_of(symbol, kind.dimension) or next(iter(alike), None)
    hint = f"did you mean {near!r}? write for example {kind.example}" if near else f"write for example {kind.example}"
    return MeasureError("measure-unit", f"{text!r} has the unknown unit {symbol!r}", hint)


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


def _not_a_measure(text: str, plain: str, kind: Kind) -> MeasureError:
    instead = f"write for example {kind.example}"
    if is_feet_and_unclear(plain):
        return MeasureError("measure-form", f"{text!r} can be read in two ways", "mark the inches, as in 8 ft 6 in")
    if _BARE.fullmatch(plain):
        return MeasureError("measure-no-unit", f"{text!r} has no unit", instead)
    match = _MEASURE.fullmatch(plain)
    if match and match["unit"][0] not in ":/":
        if parse_number(match["number"]) is None:
            return MeasureError("measure-number", f"{text!r} divides by zero", instead)
        return _unknown_unit(match["unit"], text, kind)
    if re.search(r"[0-9],[0-9]", plain):
        advice = f"write a decimal point and no thousands mark, for example {kind.example}"
        return MeasureError("measure-comma", f"{text!r} has a comma", advice)
    return MeasureError("measure-form", f"{text!r} is not a measure", instead)


def measure(text: str, kind_name: str) -> Measure:
    """`parse_measure` by the name of the kind, for rule sets, tests and defaults in code."""
    return parse_measure(text, KINDS[kind_name])


def kind_of_text(text: str) -> str | None:
    """The kind that a measure's own unit suggests: `10 in` a thickness, `8 ft` a length. None for no measure."""
    written = text.strip()
    if len(written) > _LONGEST:
        return None
    plain = in_plain_characters(written)
    if rise_on_twelve(plain) is not None and "/" not in plain:
        return "angle"
    match = _MEASURE.fullmatch(plain)
    strict = plain if match and match["unit"] in SPELLINGS else in_strict_grammar(plain, None) or plain
    if _FEET_INCHES.fullmatch(strict):
        return "length"
    match = _MEASURE.fullmatch(strict) or _TICKS.fullmatch(strict)
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
