"""Values that no limit of its kind has, and values that one seldom has: a slip of digits or of the unit.

Where a limit is compared with one fact alone, the plausible range of that fact holds for it. Else the range of its
kind does, wide enough for every limit of the shipped rule sets (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator

from compliance.facts.catalogue import FACTS
from compliance.record import record
from compliance.rules.rule_checks import COVER_COUNTS
from compliance.rules.rule_set import Rule
from compliance.units import KINDS, Writer, parse_measure

_ABSURD = 20.0
"""How many times beyond what is usual no reason helps any more."""

_USUAL: dict[str, tuple[str, str]] = {
    "length": ("0 ft", "60 ft"), "thickness": ("0 in", "60 in"), "coordinate": ("0 ft", "60 ft"),
    "layer_height": ("0 in", "36 in"), "grain_size": ("0 mm", "100 mm"), "area": ("0 ft2", "20000 ft2"),
    "section_area": ("0 in2", "2000 in2"), "volume": ("0 ft3", "20000 ft3"), "mass": ("0 lb", "2000 lb"),
    "force": ("0 lbf", "100000 lbf"), "line_load": ("0 plf", "20000 plf"), "pressure": ("0 psf", "15000 psf"),
    "stress": ("1 psi", "10000 psi"), "density": ("10 pcf", "200 pcf"), "speed": ("0 mph", "220 mph"),
    "age": ("0 days", "400 days"), "time": ("0 h", "2000 h"), "seconds": ("0 s", "100000 s"),
    "minutes": ("0 min", "5000 min"), "temperature": ("-40 degF", "250 degF"), "angle": ("0 deg", "90 deg"),
    "share": ("0 %", "100 %"), "ratio": ("0", "100"), "count": ("0", "1000"), "permeance": ("0 perms", "200 perms"),
}  # fmt: skip


@record
class Doubt:
    """Why a value is out of the ordinary. `is_absurd` where no limit of the kind can have it."""

    why: str
    is_absurd: bool


def doubt_about(rule: Rule, name: str, kind: str, value: object) -> Doubt | None:
    """What speaks against `value` (SI) of the limit or table `name`; None where nothing does, and for words."""
    if not isinstance(value, float) or kind not in KINDS:
        return None
    compared = list(_compared_with(rule, name))
    if value < 0 and not KINDS[kind].negative:
        return Doubt(f"{_written(value, kind)} is below zero", True)
    if any(fact in _COUNTS for _, fact in compared) and value != int(value):
        return Doubt(f"{_written(value, kind)} is no whole number, and it limits a count", True)
    least, most = _range(kind, compared)
    usual = _usual_words(least, most, kind)
    if value == 0 and any(relation in (">", ">=") for relation, _ in compared):
        return Doubt(f"a minimum of {_written(value, kind)} asks for nothing", False)
    if least <= value <= most:
        return None
    beyond = value > _ABSURD * most if value > most else value < least / _ABSURD and least > 0 and value != 0
    return Doubt(f"{_written(value, kind)} is out of the ordinary ({usual} is usual)", beyond)


_COUNTS = {"specimens", *COVER_COUNTS, *(spec.name for spec in FACTS.values() if spec.kind == "count")}


def _compared_with(rule: Rule, name: str) -> Iterator[tuple[str, str]]:
    """Relation and value of each comparison that has the limit alone on its other side."""
    for comparison in rule.check.comparisons() if rule.check else ():
        if comparison.limit_text.strip() == name:
            yield comparison.relation, comparison.value_text.strip()


def _range(kind: str, compared: list[tuple[str, str]]) -> tuple[float, float]:
    """Least and most that is usual, in SI; without bounds for a kind that has none."""
    texts = _USUAL.get(kind)
    least, most = (_bound(texts[0], kind), _bound(texts[1], kind)) if texts else (float("-inf"), float("inf"))
    for _, fact in compared:
        if fact in FACTS:
            low, high = FACTS[fact].plausible
            return (low if low > float("-inf") else least), (high if high < float("inf") else most)
    return least, most


def _bound(text: str, kind: str) -> float:
    measured = KINDS[kind].us or KINDS[kind].si
    return parse_measure(text, KINDS[kind]).si if measured else float(text)


def _written(value: float, kind: str) -> str:
    return Writer("us").both(value, kind)


def _usual_words(least: float, most: float, kind: str) -> str:
    if most == float("inf"):
        return f"at least {_written(least, kind)}"
    return f"{_written(least, kind)} to {_written(most, kind)}"
