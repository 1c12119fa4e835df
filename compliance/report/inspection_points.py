"""The points of the inspection plan: what is looked at when, by whom, of which subjects, and what came of it."""

from __future__ import annotations

from compliance.findings import Finding, Outcome
from compliance.judging.conditions.due import as_judged
from compliance.judging.records import waits_for_the_work
from compliance.record import record
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.rules.rule_set import Inspect, Rule
from compliance.rules.schema import STAGES

STAGE_NAMES = {
    "trench": "Trench", "footing": "Footing", "stem": "Stem wall", "moisture-break": "Moisture break", "mix": "Mix",
    "first-lift": "First lift", "lifts": "Lifts", "openings": "Openings",
    "anchors": "Anchors and reinforcement", "bond-beam": "Bond beam", "before-roof": "Before the roof",
    "finish": "Finish",
}  # fmt: skip


@record
class SitePoint:
    """One inspect rule with its subjects: those that wait for the work, those recorded (passed or not), and those of
    which it is not known whether the point applies. A subject that was not passed waits again."""

    group: RuleFindings
    rule: Rule
    waiting: tuple[Finding, ...]
    recorded: tuple[Finding, ...]
    unsure: tuple[Finding, ...]

    @property
    def inspect(self) -> Inspect:
        assert self.rule.inspect
        return self.rule.inspect

    @property
    def code(self) -> str:
        return self.group.code

    @property
    def key(self) -> str:
        """The place of the point in the plan."""
        return f"point-{self.code}"

    @property
    def is_hold(self) -> bool:
        return self.inspect.point == "hold"

    @property
    def stage(self) -> str:
        return STAGE_NAMES[self.inspect.stage]

    @property
    def to_look_at(self) -> tuple[Finding, ...]:
        """Subjects that still have to be looked at, or looked at again, in the order of the project."""
        again = [one for one in self.recorded if not _passed(one)]
        left = {id(one) for one in (*self.waiting, *self.unsure, *again)}
        return tuple(one for one in self.group.findings if id(one) in left)

    @property
    def passed(self) -> tuple[Finding, ...]:
        return tuple(one for one in self.recorded if _passed(one))


def site_points(sets: tuple[SetFindings, ...]) -> tuple[SitePoint, ...]:
    """Every inspect rule that applies to a subject or may apply, in the order of the work."""
    points = []
    for one in sets:
        rules = {rule.id: rule for rule in one.rule_set.rules}
        for group in one.rules:
            if rules[group.rule].inspect:
                points.append(_point(group, rules[group.rule]))
    found = [point for point in points if point.to_look_at or point.recorded]
    return tuple(sorted(found, key=lambda point: STAGES.index(point.inspect.stage)))


def _point(group: RuleFindings, rule: Rule) -> SitePoint:
    waiting = tuple(one for one in group.findings if waits_for_the_work(one))
    unsure = tuple(one for one in group.findings if _unsure(one) and not waits_for_the_work(one))
    others = {id(one) for one in (*waiting, *unsure)}
    recorded = tuple(one for one in group.findings if id(one) not in others and one.outcome not in _SET_ASIDE)
    return SitePoint(group, rule=rule, waiting=waiting, recorded=recorded, unsure=unsure)


_SET_ASIDE = (Outcome.NOT_APPLICABLE, Outcome.LATER)


def _passed(finding: Finding) -> bool:
    """A point of a rule that is itself open was passed too, though that settles nothing about the code."""
    return finding.outcome in (Outcome.MEETS, Outcome.CONFIRM)


def _unsure(finding: Finding) -> bool:
    """Whether the rule applies could not be said: nobody has looked, and nothing says that nobody need look."""
    return not finding.steps and as_judged(finding).outcome in (Outcome.MISSING, Outcome.ENGINEER)
