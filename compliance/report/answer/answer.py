"""The answer of a check as data, for the terminal and for papers: every finding is in it once, or counted."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.checked import Checked
from compliance.findings import Finding, FindingKey, Outcome
from compliance.judging.conditions.due import ReachedStage
from compliance.record import record
from compliance.report.answer.causes import Cause, cause_of_rule, causes
from compliance.report.answer.folding import STOPS, folded
from compliance.report.answer.to_decide import Item, to_decide
from compliance.stages import Stage


@record
class Clause:
    """A clause of a rule set that has something to read in the adopted copy: the findings that wait for it."""

    rule_set: str
    clause: str
    findings: tuple[Finding, ...]

    @property
    def key(self) -> str:
        """What stands for it in `cause`."""
        return f"{self.rule_set} {self.clause}"

    @property
    def titles(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(one.title for one in self.findings))


@record
class Answer:
    """What a check comes to. `stops` are causes nobody accepted, `accepted` those an official did; `to_write` what is
    missing, `to_read` the clauses to ask about, `later` how many findings are due at each later stage; `under` tells
    under which finding another is told."""

    reached: ReachedStage
    stops: tuple[Cause, ...]
    accepted: tuple[Cause, ...]
    to_write: tuple[Item, ...]
    to_read: tuple[Clause, ...]
    later: Mapping[Stage, int]
    under: Mapping[FindingKey, Finding]
    all_meet: bool

    @property
    def walls_for_an_engineer(self) -> tuple[str, ...]:
        """The walls with a finding for an engineer; an empty mark stands for the building."""
        found = (one.wall for cause in self.stops if cause.outcome is Outcome.ENGINEER for one in cause.findings)
        return tuple(dict.fromkeys(found))

    @property
    def changes(self) -> int:
        """How many causes a builder can change."""
        return sum(cause.outcome is Outcome.REVISE for cause in self.stops)

    @property
    def decisions(self) -> int:
        """How many things are to be written: each field, answer, test and record."""
        return sum(max(len(one.names), 1) for one in self.to_write)


def answer(checked: Checked) -> Answer:
    under = folded(checked)
    stopping = [under[key] for key, root in under.items() if root.outcome in STOPS]
    found = causes(checked.findings, under, stopping)
    later = {stage: 0 for stage in Stage if not checked.reached.stage.asks_for(stage)}
    for one in checked.findings:
        if one.outcome is Outcome.LATER:
            later[one.stage] += 1
    return Answer(
        reached=checked.reached,
        stops=tuple(one for one in found if not one.is_accepted),
        accepted=tuple(one for one in found if one.is_accepted),
        to_write=to_decide(checked),
        to_read=_clauses(checked),
        later={stage: count for stage, count in later.items() if count},
        under=under,
        all_meet=checked.all_meet,
    )


def _clauses(checked: Checked) -> tuple[Clause, ...]:
    """In the order of the rule sets."""
    groups: dict[tuple[str, str], list[Finding]] = {}
    for one in checked.findings:
        if one.outcome is Outcome.CONFIRM:
            groups.setdefault((one.rule_set, one.clause), []).append(one)
    return tuple(Clause(rule_set, clause, tuple(found)) for (rule_set, clause), found in groups.items())


def cause_of_each(found: Answer) -> Mapping[FindingKey, str]:
    """What stands for the line of the screen that tells each finding: the rule that does not hold, the first thing to
    write, the clause to read. Those that meet, do not apply or come later have none."""
    causing: dict[FindingKey, str] = {}
    for clause in found.to_read:
        causing |= {one.key: clause.key for one in clause.findings}
    for item in reversed(found.to_write):
        causing |= {one.key: item.key for one in item.findings}
    for cause in (*found.stops, *found.accepted):
        causing |= {one.key: cause.key for one in cause.findings}
    for key, root in found.under.items():
        if root.outcome in STOPS:
            causing[key] = cause_of_rule(root)
    return causing
