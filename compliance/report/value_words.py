"""Values, limits and margins in words: never rounded so that a value outside its limit looks equal to it."""

from __future__ import annotations

import math
import re

from compliance.facts.mixes.quantities import OrderingPractice
from compliance.findings import Finding
from compliance.model.materials import Ordering
from compliance.rules.formulas.printing import RELATIONS
from compliance.steps import Given
from compliance.units import Writer

_SAME = 1e-9
_MOST_DECIMALS = 7
NOTHING = "—"
_IN_WORDS = {"in": "one of", "not in": "none of", "is": "is", "is not": "is not"}


def quoted(given: Given | None, writer: Writer) -> str:
    """A limit in both systems of units; "open" where it is not known."""
    if given is None:
        return "open"
    if isinstance(given.value, (str, bool)):
        return given.written(writer)
    return writer.both(given.value, given.kind)


def relation(finding: Finding) -> str:
    """How the value must stand to the limit, as a sign or a word."""
    return RELATIONS.get(finding.relation, _IN_WORDS.get(finding.relation, finding.relation))


def value_and_limit(finding: Finding, writer: Writer) -> tuple[str, str]:
    """The value, and the limit in both systems, with as many decimals as it takes to tell them apart."""
    value, limit = finding.value, finding.limit
    if value is None or limit is None or not (_is_number(value) and _is_number(limit)):
        shown = value.written(writer) if value else NOTHING
        return shown, quoted(limit, writer) if limit else NOTHING
    here = _pair(float(value.value), float(limit.value), limit.kind, writer)
    there = _pair(float(value.value), float(limit.value), limit.kind, writer.other)
    return here[0], here[1] if here[1] == there[1] else f"{here[1]} ({there[1]})"


def _is_number(given: Given) -> bool:
    return not isinstance(given.value, (str, bool))


def _pair(value: float, limit: float, kind: str, writer: Writer) -> tuple[str, str]:
    """Two values that differ never print alike: where no decimals help, words do."""
    shown, allowed = writer.pair(value, limit, kind)
    if shown == allowed and not math.isclose(value, limit, rel_tol=_SAME):
        return f"just {'over' if value > limit else 'under'} {allowed}", allowed
    return shown, allowed


def percent(share: float | None) -> str:
    """A margin in percent with its sign; enough decimals that no margin but zero reads as zero."""
    if share is None or not math.isfinite(share):
        return NOTHING
    if share == 0:
        return "0 %"
    for decimals in range(_MOST_DECIMALS):
        text = f"{abs(share) * 100:.{decimals}f}"
        if float(text) != 0:
            break
    return f"{'+' if share > 0 else '−'}{text} %"


def counted(count: int, one: str, many: str = "") -> str:
    """A number with its noun: "1 wall", "3 walls"."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def as_words(name: str) -> str:
    """A word that a project file writes with hyphens as the trade writes it: "rubble-trench" as "rubble trench"."""
    return re.sub(r"(?<=[a-z])-(?=[a-z])", " ", name)


def closed(text: str) -> str:
    """A text of a person or a rule as a sentence: with the stop it lacks."""
    return text if text.endswith((".", "?", "!")) else f"{text}."


def ordering_words(used: OrderingPractice, writer: Writer) -> str:
    """The figures that quantities are counted with."""
    bucket, bale = writer.write(used.bucket, "vessel_volume"), writer.write(used.bale_mass, "mass")
    loose = f"{used.loose_for_wall:g} volumes of loose soil and sand for each of wall"
    return f"buckets of {bucket}, {loose}, {writer.write(used.waste, 'share')} waste, bales of {bale}"


def usual_figures(stated: Ordering) -> list[str]:
    """Which of these the project does not state, so that they are common practice."""
    return [name for name in ("bucket", "loose_for_wall", "waste", "bale") if getattr(stated, name) is None]
