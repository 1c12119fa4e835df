"""One finding before and after a change, and whether the change makes it worse."""

from __future__ import annotations

from compliance.findings import Finding, Outcome
from compliance.judging.reasons import GivesWay
from compliance.record import record

_UNJUDGED = (Outcome.CONFIRM, Outcome.MISSING)
_SAME = 1e-9


def badness(finding: Finding | None) -> int:
    """0 for what meets or does not apply; the more, the worse the outcome. What gives way to a stricter answer counts
    as it would without that one."""
    if finding is None:
        return 0
    outcome = finding.remark if is_outdone(finding) and finding.remark else finding.outcome
    return max(Outcome.MEETS.rank - outcome.rank, 0)


def is_outdone(finding: Finding | None) -> bool:
    """Whether another rule has a stricter answer to the same question, which stands in its place."""
    return finding is not None and isinstance(finding.reason, GivesWay) and finding.reason.how == "stricter"


@record
class Difference:
    """One finding before and after a change; None where it has no subject then."""

    before: Finding | None
    after: Finding | None

    @property
    def altered(self) -> bool:
        """Whether the outcome is another, or the finding has come or gone."""
        return self.before is None or self.after is None or self.before.outcome is not self.after.outcome

    @property
    def worse(self) -> bool:
        """A worse outcome; or, outside the limit before and after, further outside. Not what a stricter answer stands
        for then: that one says it."""
        if is_outdone(self.after):
            return False
        if badness(self.after) != badness(self.before):
            return badness(self.after) > badness(self.before)
        return badness(self.after) > 0 and _margin(self.after) < _margin(self.before) - _SAME

    @property
    def better(self) -> bool:
        return not is_outdone(self.before) and not is_outdone(self.after) and badness(self.after) < badness(self.before)

    @property
    def unjudged(self) -> bool:
        """Whether a limit or a value is lacking, so that nobody can say what the change does to it."""
        return self.after is not None and self.after.outcome in _UNJUDGED

    @property
    def wall(self) -> str:
        one = self.after or self.before
        return one.wall if one else ""


def _margin(finding: Finding | None) -> float:
    known = finding is not None and finding.margin is not None and finding.outcome not in _UNJUDGED
    return finding.margin if known and finding and finding.margin is not None else 0.0
