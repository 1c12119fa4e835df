"""The mark of each finding for a reader: its word, its heading, its meaning and its pigment."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from compliance.findings import Finding, Outcome, Standing
from compliance.record import record
from compliance.report.pigments import ASH, CLAY, LICHEN, OCHRE, SLATE, UMBER


@record
class Sign:
    """How an outcome is told: in a word or two, as a heading of a list, and in a sentence."""

    word: str
    heading: str
    meaning: str
    pigment: str


class Mark(Enum):
    """As a reader needs them, worst first. A limit nobody has read in the adopted copy makes `meets` a mark of its
    own."""

    ENGINEER = Sign(
        "engineer",
        "For an engineer",
        "Outside what the prescriptive rules cover: a licensed engineer designs or reviews it before it is built.",
        SLATE,
    )
    REVISE = Sign("revise", "To revise", "Outside the limit, and the builder can change it.", CLAY)
    MISSING = Sign("missing", "Missing", "The description or the records lack a value the rule needs.", UMBER)
    CONFIRM = Sign(
        "confirm",
        "Confirm: limit open",
        "The limit, or whether the rule stands at all, is not known here; read it in the adopted copy.",
        OCHRE,
    )
    LATER = Sign(
        "later",
        "Not due yet",
        "The project does not stand where the rule asks for this; it is due at a later stage.",
        ASH,
    )
    RESERVED = Sign(
        "meets, limit to be confirmed",
        "Meets, limit to be confirmed",
        "Within a limit that nobody has yet read in the adopted copy of the code.",
        LICHEN,
    )
    MEETS = Sign("meets", "Meets", "Within the limit.", LICHEN)
    NOT_APPLICABLE = Sign(
        "not applicable",
        "Not applicable",
        "The rule does not apply to this subject.",
        ASH,
    )

    @property
    def rank(self) -> int:
        return _ORDER.index(self)


_ORDER = list(Mark)
_BY_OUTCOME = {
    Outcome.ENGINEER: Mark.ENGINEER,
    Outcome.REVISE: Mark.REVISE,
    Outcome.MISSING: Mark.MISSING,
    Outcome.CONFIRM: Mark.CONFIRM,
    Outcome.LATER: Mark.LATER,
    Outcome.MEETS: Mark.MEETS,
    Outcome.NOT_APPLICABLE: Mark.NOT_APPLICABLE,
}


def mark_of(finding: Finding) -> Mark:
    return mark_for(finding.outcome, finding.standing if finding.binds else None)


def mark_for(outcome: Outcome, standing: Standing | None) -> Mark:
    """The mark of an outcome that rests on a limit of a code of this standing."""
    if outcome is Outcome.MEETS and standing is not None and standing.wants_confirming:
        return Mark.RESERVED
    return _BY_OUTCOME[outcome]


def worst(findings: Iterable[Finding]) -> Mark:
    """The mark of the worst of several findings. Raises ValueError for none."""
    return min(map(mark_of, findings), key=lambda mark: mark.rank)
