"""What is open, limits and whole rules: where each is to be read, which checks wait for it, and for how many
subjects."""

from __future__ import annotations

from compliance.findings import LimitUsed, Outcome, Standing
from compliance.record import record
from compliance.report.by_rule import RuleFindings, SetFindings


@record
class LimitToRead:
    """One open limit, or None where the rule itself is open. `waiting` is how many findings of its rule wait."""

    group: RuleFindings
    limit: LimitUsed | None
    waiting: int

    @property
    def where(self) -> str:
        return (self.limit.read_in or self.limit.clause) if self.limit else self.group.first.clause

    @property
    def title(self) -> str:
        return self.group.first.title

    @property
    def name(self) -> str:
        return self.limit.name.replace("_", " ") if self.limit else "whether the rule stands"

    @property
    def what(self) -> str:
        return f"{self.title}: {self.name}"


def limits_to_read(sets: tuple[SetFindings, ...]) -> tuple[LimitToRead, ...]:
    """In the order of the rule sets; of a rule that applies nowhere, none."""
    return tuple(
        LimitToRead(group, limit, waiting)
        for one in sets
        for group in one.rules
        if (waiting := sum(finding.outcome is Outcome.CONFIRM for finding in group.findings))
        for limit in (_open_limits(group) or (None,))
    )


def _open_limits(group: RuleFindings) -> tuple[LimitUsed, ...]:
    return tuple(limit for limit in group.limits if limit.standing is Standing.OPEN)
