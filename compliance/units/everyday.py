"""How people write measures beyond the strict grammar, rewritten into it: `12 inches`, `8' 6`, `9½ in`, `1,500 psf`.

Only what can mean one thing is rewritten. US units have no prefixes, so their capitals do not matter; those of SI do
(mPa, MPa), and stay as they are. A comma parts thousands where the unit is a US one. What could mean two things is
left, and the strict grammar asks.
"""

from __future__ import annotations

import re

from compliance.units.kinds import Kind, dimension_of
from compliance.units.unit_table import NUMBER, SPELLINGS, unit

_CHARACTERS = str.maketrans({
    "’": "'", "‘": "'", "′": "'", "“": '"', "”": '"', "″": '"', "⁄": "/",
    "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u2010": "-", "\u2011": "-", "\u2013": "-",
})  # fmt: skip
_FRACTIONS = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3",
}  # fmt: skip
_BARE_POINT = re.compile(r"^(-?)\.(?=[0-9])")
_FRACTION = re.compile(rf"([0-9]?) ?([{''.join(_FRACTIONS)}])")

US_SYMBOLS = (
    "in", "ft", "yd", "in2", "in²", "ft2", "ft²", "in3", "in³", "ft3", "ft³", "yd3", "yd³", "in4", "in⁴", "lb", "lbf",
    "kip", "mph", "psi", "ksi", "psf", "ksf", "plf", "klf", "lbf/ft", "pcf", "lb/ft3", "lb/ft³", "lbf·ft", "lbf*ft",
    "lbf·ft/ft", "lbf*ft/ft", "psi/min", "lbf/min", "perm", "perms",
    "ft2*h*F/Btu", "ft²·h·°F/Btu", "Btu/(ft2*F)", "Btu/(ft²·°F)",
    "Btu/(lb*F)", "Btu/(lb·°F)", "Btu*in/(h*ft2*F)", "Btu·in/(h·ft²·°F)", "Btu/(h*ft*F)", "Btu/(h·ft·°F)",
    "Btu/(h*ft2*F)", "Btu/(h·ft²·°F)",
)  # fmt: skip
"""Those of which capitals do not matter and a comma parts thousands."""
_SYMBOLS: dict[str, str] = {
    "ft": "foot feet", "in": "inch inches", "yd": "yds yard yards",
    "lb": "lbs pound pounds", "lbf": "lbsf", "kip": "kips",
    "in2": "sq in|square inch|square inches", "ft2": "sq ft|square foot|square feet|sf",
    "in3": "cu in|cubic inch|cubic inches", "ft3": "cu ft|cubic foot|cubic feet",
    "yd3": "cu yd|cubic yard|cubic yards",
    "psi": "lb/in2|lb/in²|lbf/in2|lbf/in²|lb/sq in|pounds per square inch|lb per square inch|lb per sq in",
    "psf": "lb/ft2|lb/ft²|lbf/ft2|lbf/ft²|lb/sq ft|lb/sf|pounds per square foot|lb per square foot|lb per sq ft",
    "ksf": "kip/ft2|kip/ft²|kips/ft2|kips/ft²|kips per square foot", "klf": "kip/ft|kips/ft|kips per foot",
    "plf": "lb/ft|lb/lf|lb per ft|lb per foot|pounds per foot|pounds per linear foot",
    "pcf": "lb/cu ft|lb/cf|pounds per cubic foot|lb per cubic foot|lb per cu ft",
    "lbf*ft": "ft-lb|ft-lbf|lb-ft|lbf-ft|lb*ft|lb·ft",
    "ft2*h*F/Btu": "h*ft2*F/Btu|hr*ft2*F/Btu|h·ft²·°F/Btu|hr·ft²·°F/Btu|ft²·°F·h/Btu|ft2*F*h/Btu|°F·ft²·h/Btu",
    "m2*K/W": "K*m2/W|m2K/W|m²K/W|K·m²/W",
    "Btu/(ft2*F)": "Btu/ft2*F|Btu/ft²·°F|Btu/ft²-°F", "Btu/(lb*F)": "Btu/lb*F|Btu/lb·°F|Btu/lb-°F",
    "W/(m*K)": "W/mK|W/m·K|W/m*K", "W/(m2*K)": "W/m2K|W/m²K|W/m²·K|W/m2*K",
    "kJ/(kg*K)": "kJ/kgK|kJ/kg·K|kJ/kg*K", "kJ/(m2*K)": "kJ/m2K|kJ/m²K|kJ/m²·K",
    "lbf/min": "lb/min|pounds per minute", "mph": "mi/h|mi/hr|miles per hour", "km/h": "kph kmh km/hr",
    "day": "days d", "week": "weeks wk wks", "degF": "°f|f|deg f|degrees f|degrees fahrenheit",
    "degC": "°c|c|deg c|degrees c|degrees celsius",
    "mm": "millimeter millimeters millimetre millimetres", "cm": "centimeter centimeters centimetre centimetres",
    "m": "meter meters metre metres", "kg": "kilogram kilograms kgs", "g": "gram grams", "t": "tonne tonnes",
    "N": "newton newtons", "kN": "kilonewton kilonewtons", "L": "liter liters litre litres",
    "h": "hr hrs hour hours", "min": "mins minute minutes", "s": "sec secs second seconds",
    "deg": "degree degrees", "%": "percent pct",
}  # fmt: skip
WORDS: dict[str, str] = (
    {"'": "ft", '"': "in"}
    | {symbol.lower(): symbol for symbol in US_SYMBOLS}
    | {
        word.lower(): symbol
        for symbol, words in _SYMBOLS.items()
        for word in words.split("|" if "|" in words else None)
    }
)
_US_FACTORS = frozenset(SPELLINGS[symbol] for symbol in US_SYMBOLS) | {"pound_per_linear_foot"}
_PER_POUND = re.compile(r"\b(?:lbs(?=/|-|\*|·| per)|pounds(?=/))")

_NUMBER = r"[0-9]{1,12}(?:\.[0-9]{1,12})?(?:[ -][0-9]{1,4}/[0-9]{1,4})?|[0-9]{1,4}/[0-9]{1,4}"
_GROUPED = r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]{1,12})?"
_ONE = re.compile(rf"(?P<sign>-?)(?P<number>{_GROUPED}|{_NUMBER}) ?(?P<unit>[^\s0-9,.+/-].*)")
_FEET = re.compile(
    r"(?P<sign>-?)(?P<feet>[0-9]{1,6}) ?(?:(?:ft\.?|feet|foot)(?:(?P<dash>-)|, | and | )|'(?P<tick_dash> ?- ?)?) ?"
    r"(?P<inches>[0-9]{1,2}(?:\.[0-9]{1,6})?(?:[ -][0-9]{1,2}/[0-9]{1,3})?|[0-9]{1,2}/[0-9]{1,3})"
    r" ?(?P<marked>in\.?|inch|inches|\")?",
    re.IGNORECASE,
)
_ZERO = re.compile(r"-?0{1,6}(?:\.0{1,6})?")
_PITCH = re.compile(r"(?P<rise>[0-9]{1,2}(?:\.[0-9]{1,3})?(?: 1/2)?)(?: ?[:/] ?| in )12")
"""A rise on a run of twelve, as roofs are pitched. Other runs are ratios that are written either way round."""
_LABELED = re.compile(r"R ?-? ?(?P<number>[0-9]{1,3}(?:\.[0-9]{1,3})?)")


def in_plain_characters(text: str) -> str:
    """`text` with plain quotes, spaces and fractions, `8’ 6”` as `8' 6"`, `9½ in` as `9 1/2 in`, and with a zero
    before a leading point."""
    plain = _FRACTION.sub(lambda found: f"{found[1]} {_FRACTIONS[found[2]]}".strip(), text.translate(_CHARACTERS))
    return _BARE_POINT.sub(r"\g<1>0.", re.sub(" +", " ", plain))


def in_strict_grammar(text: str, kind: Kind | None, *, commas: bool = True) -> str | None:
    """`text` as the strict grammar has it, for a measure of `kind` where one is known; None where it could mean two
    things or is no measure. `commas`: whether a comma may part thousands."""
    if _ZERO.fullmatch(text):
        return _zero(text, kind)
    feet = _FEET.fullmatch(text)
    if feet:
        return _feet_and_inches(feet)
    one = _ONE.fullmatch(text)
    symbol = one and symbol_of(one["unit"], kind)
    if not one or symbol is None:
        return None
    number = one["number"]
    if "," in number:
        if not commas or SPELLINGS[symbol] not in _US_FACTORS:
            return None
        number = number.replace(",", "")
    return f"{one['sign']}{number} {symbol}"


def _feet_and_inches(feet: re.Match[str]) -> str | None:
    """Without a mark of inches, a fraction alone could be of a foot, and a dash could be that of a range."""
    lone = "/" in feet["inches"] and not re.search("[ -]", feet["inches"])
    if not feet["marked"] and (lone or feet["dash"] or feet["tick_dash"]):
        return None
    return f"{feet['sign']}{feet['feet']} ft {feet['inches']} in"


def symbol_of(written: str, kind: Kind | None) -> str | None:
    """The unit that `written` names, spelled as in the table of units; None for one that is not known or not clear.

    Pounds are pounds-force where only a force fits; degrees are of an angle, never of temperature.
    """
    exact = written.replace("^", "").removesuffix(".")
    found = exact if exact in SPELLINGS else WORDS.get(_folded(exact))
    if found is None or kind is None:
        return found
    if found == "lb" and kind.dimension == dimension_of("force"):
        return "lbf"
    return None if found == "deg" and exact != "deg" and kind.dimension != NUMBER else found


def _folded(written: str) -> str:
    """Without capitals, dots of abbreviation and the plural of pounds before a slash."""
    plain = re.sub(r"(?<=[a-z])\.", "", written.lower()).strip()
    return _PER_POUND.sub("lb", re.sub(" ?/ ?", "/", re.sub(" +", " ", plain)))


def _zero(text: str, kind: Kind | None) -> str | None:
    """Zero is the same in every unit, but for temperatures."""
    if kind is None or not kind.si or unit(kind.si).offset:
        return None
    return f"{text} {kind.si}"


def is_feet_and_unclear(text: str) -> bool:
    """Whether `text` is feet with something that may be inches."""
    feet = _FEET.fullmatch(text)
    return feet is not None and _feet_and_inches(feet) is None


def rise_on_twelve(text: str) -> float | None:
    """The rise of a roof pitch, `6:12`, `6/12` or `6 in 12`, on a run of twelve; None where a text is none."""
    found = _PITCH.fullmatch(text)
    if found is None:
        return None
    whole, _, half = found["rise"].partition(" ")
    return float(whole) + (0.5 if half else 0.0)


def labeled_resistance(text: str) -> str | None:
    """`R-13` or `R 13`, as a label of insulation in US units says, in the strict grammar; None where a text is none."""
    found = _LABELED.fullmatch(text.strip())
    return f"{found['number']} ft2*h*F/Btu" if found else None
