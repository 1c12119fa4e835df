"""A finding: what one rule says of one subject, with everything a document needs to print it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field
from enum import StrEnum

from compliance.problems import Place
from compliance.record import record
from compliance.stages import UNSTAGED, Stage
from compliance.steps import Given, Step, Worked, no_steps


class Outcome(StrEnum):
    """In the order in which a reader needs them, worst first."""

    ENGINEER = "engineer"
    REVISE = "revise"
    MISSING = "missing"
    CONFIRM = "confirm"
    LATER = "later"
    MEETS = "meets"
    NOT_APPLICABLE = "not-applicable"

    @property
    def rank(self) -> int:
        return _OUTCOMES.index(self)

    @property
    def words(self) -> str:
        """The outcome as a reader sees it."""
        return self.value.replace("-", " ")


class Standing(StrEnum):
    """How well a limit is known, best first."""

    CONFIRMED = "confirmed"
    READ = "read"
    REPORTED = "reported"
    RECALLED = "recalled"
    OPEN = "open"

    @property
    def rank(self) -> int:
        return _STANDINGS.index(self)

    @property
    def wants_confirming(self) -> bool:
        """A limit nobody read in a copy of the code: `meets` on it is printed with that reserve."""
        return self.rank >= Standing.REPORTED.rank


_OUTCOMES = list(Outcome)
_STANDINGS = list(Standing)


def lowest(standings: Iterable[Standing]) -> Standing | None:
    """The lowest of several standings; None where nothing rests on a limit."""
    worst: Standing | None = None
    for standing in standings:
        if worst is None or (standing is not worst and standing.rank > worst.rank):
            worst = standing
    return worst


@record
class Amended:
    """What one local amendment did to a limit: before and after (None: open, or no limit), by whom, on what day, read
    where, on what authority, for what reason. `cell` names the cell of a table."""

    before: Given | None
    by: str
    on: str
    authority: str
    reason: str
    after: Given | None = None
    where: str = ""
    standing: str = ""
    cell: str = ""

    @property
    def is_confirmation(self) -> bool:
        """Whether it left the value as it was."""
        return self.before is not None and self.after is not None and same_value(self.before.value, self.after.value)


def same_value(one: object, other: object) -> bool:
    """Equal; of numbers, within one part in 1e9, so that the unit a value was written in does not matter."""
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= _SAME * max(abs(one), abs(other))
    return one == other


_SAME = 1e-9


@record
class LimitUsed:
    """A limit a finding rests on, for the register. `value` is None while the limit is open; `history` is every
    amendment of it, in order."""

    rule_set: str
    rule: str
    name: str
    clause: str
    value: Given | None
    standing: Standing
    source: str
    note: str = ""
    read_in: str = ""
    history: tuple[Amended, ...] = ()

    @property
    def amended(self) -> Amended | None:
        """The last amendment."""
        return self.history[-1] if self.history else None

    @property
    def shipped(self) -> Given | None:
        """The value before the first amendment; None where it was open, and for a table, whose cells each have one."""
        return self.history[0].before if self.history and not self.history[0].cell else None

    @property
    def is_changed(self) -> bool:
        """Whether an amendment did more than confirm the value."""
        return any(not one.is_confirmation for one in self.history)


def own_mark(mark: str, wall: str) -> str:
    """The mark of a part within its wall, "A" of "W1.A"; the whole mark of what is no part of a wall."""
    return mark.removeprefix(f"{wall}.") if wall else mark


class Lack(StrEnum):
    """What is lacking. The parts of a `Missing` follow from it."""

    FIELD = "field"  # the path of a field in the project
    TEST_SET = "test-set"  # kind of test ("" for any), mix
    PASSING_SET = "passing-set"  # mix ("" for that of the rule)
    ROWS = "rows"  # one or more sets without results
    CELLS = "cells"  # columns in words, set
    CELL = "cell"  # columns in words, specimen, set
    ANSWER = "answer"  # rule, subject


@record
class Missing:
    """One thing that is lacking, and the file to write it in."""

    kind: Lack
    parts: tuple[str | int, ...]
    file: str


@record
class Reason:
    """Why the outcome is what it is, as data; `judging.reasons` has a record for each kind of reason."""

    code = ""


@record
class SetAside:
    """A specimen that does not count, and why."""

    mark: str
    why: str


@record
class Accepted:
    """A deviation that an official accepted: who, on what day, in which document, on what condition, until when."""

    official: str
    on: str
    document: str
    condition: str = ""
    until: str = ""

    @property
    def words(self) -> str:
        """Everything of it in a line."""
        condition = f"; condition: {self.condition}" if self.condition else ""
        until = f", until {self.until}" if self.until else ""
        return f"accepted by {self.official} on {self.on}{until} ({self.document}), not meets{condition}"


FindingKey = tuple[str, str, str, str]
"""Rule set, rule, kind of subject, subject."""


@record
class Finding:
    """What one rule says of one subject.

    `relation` is how `value` must stand to `limit` ("<=", ">=" ...). `margin` is the share of the limit that
    is left: above zero inside, zero at the limit, below zero outside; None where the check is no comparison.
    `missing` names each thing that is lacking and the file to write it in. `aside` are specimens that do not count
    under the rule; `corrected` is yes where results are corrected for their shape, `waiting` those of which a
    blank cell decides. `beside` is what is named beside the reason. `stage` is when the answer is due, `status` what
    the rule set is (code, standard, guide, practice). `remark` is what the outcome would be where another rule set
    answers the question. Steps are worked out only when asked for.
    """

    rule_set: str
    rule: str
    kind: str
    title: str
    clause: str
    about: str
    subject: str
    outcome: Outcome
    standing: Standing | None
    say: str
    reason: Reason
    place: Place
    value: Given | None = None
    relation: str = ""
    limit: Given | None = None
    margin: float | None = None
    remedy: str = ""
    missing: tuple[Missing, ...] = ()
    limits: tuple[LimitUsed, ...] = ()
    source: str = ""
    wall: str = ""
    question: str = ""
    accepted: Accepted | None = None
    aside: tuple[SetAside, ...] = ()
    corrected: bool = False
    waiting: tuple[SetAside, ...] = ()
    beside: tuple[Reason, ...] = ()
    stage: Stage = UNSTAGED
    status: str = "code"
    remark: Outcome | None = None
    worked: Worked = field(default=no_steps, compare=False, repr=False)

    @property
    def steps(self) -> tuple[Step, ...]:
        return self.worked()

    @property
    def key(self) -> FindingKey:
        """What tells it from every other finding of a check."""
        return self.rule_set, self.rule, self.about, self.subject

    @property
    def own_mark(self) -> str:
        """The mark of the subject within its wall."""
        return own_mark(self.subject, self.wall)

    @property
    def marks(self) -> frozenset[str]:
        """All by which the subject is called."""
        return frozenset({self.wall, self.subject, self.own_mark}) - {""}

    @property
    def binds(self) -> bool:
        """Whether its rule set is a code or a standard: a guide and practice have no adopted copy to read."""
        return self.status in BINDING

    @property
    def wants_confirming(self) -> bool:
        return self.binds and self.standing is not None and self.standing.wants_confirming

    @property
    def verdict(self) -> str:
        """The outcome in words for a reader."""
        return self._verdict("")

    @property
    def verdict_with_standing(self) -> str:
        """The outcome in words, with the standing that it rests on."""
        return self._verdict(self.standing.value if self.standing else "")

    def _verdict(self, known: str) -> str:
        rests_on = f" ({known})" if known else ""
        if self.accepted is not None:
            return f"accepted by {self.accepted.official}, not meets{rests_on}"
        if self.remark is not None:
            return f"remark: {self.remark.words}{rests_on}"
        if self.outcome is Outcome.MEETS and not self.binds:
            return f"meets ({', '.join(word for word in (self.status, known) if word)})"
        if self.outcome is Outcome.MEETS and self.wants_confirming:
            return f"meets, limit to be confirmed{rests_on}"
        return f"{self.outcome.words}{rests_on}"


STATUSES = ("code", "standard", "guide", "practice")
"""What a rule set can be, the most binding first."""
BINDING = STATUSES[:2]
"""Those that bind where they are adopted."""
