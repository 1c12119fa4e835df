"""The points of the inspection plan: what is looked at when, by whom, of which subjects, and what came of it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from compliance.findings import Finding, Outcome
from compliance.judging.conditions.due import as_judged
from compliance.judging.records import waits_for_the_work
from compliance.model.structure import Footing
from compliance.record import record, replace
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.rules.rule_set import Inspect, LookedAt, Rule
from compliance.rules.schema import STAGES

STAGE_NAMES = {
    "trench": "Trench", "footing": "Footing", "stem": "Stem wall", "moisture-break": "Capillary break", "mix": "Mix",
    "first-lift": "First lift", "lifts": "Lifts", "openings": "Openings",
    "anchors": "Anchors and reinforcement", "bond-beam": "Bond beam", "before-roof": "Before the roof",
    "finish": "Finish",
}  # fmt: skip
NO_FOOTINGS: Mapping[str, Footing] = MappingProxyType({})


@record
class SitePoint:
    """One inspect rule with its subjects: those that wait for the work, those recorded (passed or not), and those of
    which it is not known whether the point applies. A subject that was not passed waits again. `kind` is that of its
    footings, where the rule says of it what is looked at."""

    group: RuleFindings
    rule: Rule
    waiting: tuple[Finding, ...]
    recorded: tuple[Finding, ...]
    unsure: tuple[Finding, ...]
    kind: str = ""

    @property
    def looked_at(self) -> LookedAt:
        """What is looked at and written down."""
        return self.inspect.looked_at(self.kind)

    @property
    def record_text(self) -> str:
        """All that is written down, in one phrase."""
        text = "; ".join(self.looked_at.record)
        return f"{text[:1].upper()}{text[1:]}"

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
        return f"point-{self.code}{f'-{self.kind}' if self.kind else ''}"

    @property
    def is_hold(self) -> bool:
        return self.inspect.point == "hold"

    @property
    def kind_word(self) -> str:
        """The word that stands beside the point."""
        return "HOLD" if self.is_hold else "WITNESS"

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


def site_points(sets: tuple[SetFindings, ...], footings: Mapping[str, Footing] = NO_FOOTINGS) -> tuple[SitePoint, ...]:
    """Every inspect rule that applies to a subject or may apply, in the order of the work; once for each kind of
    footing of which it says something else."""
    points = []
    for one in sets:
        rules = {rule.id: rule for rule in one.rule_set.rules}
        for group in one.rules:
            if rules[group.rule].inspect:
                points += _by_kind(_point(group, rules[group.rule]), footings)
    found = [point for point in points if point.to_look_at or point.recorded]
    return tuple(sorted(found, key=lambda point: STAGES.index(point.inspect.stage)))


def _point(group: RuleFindings, rule: Rule) -> SitePoint:
    waiting = tuple(one for one in group.findings if waits_for_the_work(one))
    unsure = tuple(one for one in group.findings if _unsure(one) and not waits_for_the_work(one))
    others = {id(one) for one in (*waiting, *unsure)}
    recorded = tuple(one for one in group.findings if id(one) not in others and one.outcome not in _SET_ASIDE)
    return SitePoint(group, rule=rule, waiting=waiting, recorded=recorded, unsure=unsure)


def _by_kind(point: SitePoint, footings: Mapping[str, Footing]) -> list[SitePoint]:
    """The point, parted where footings of a kind are looked at otherwise."""
    if not point.inspect.by_kind or point.rule.about != "footing":
        return [point]

    def kind_of(one: Finding) -> str:
        found = footings.get(one.subject)
        return found.kind if found and found.kind in point.inspect.by_kind else ""

    found = (point.waiting, point.recorded, point.unsure)
    parts = {
        kind: [tuple(one for one in ones if kind_of(one) == kind) for ones in found]
        for kind in ("", *point.inspect.by_kind)
    }
    return [
        replace(point, waiting=waiting, recorded=recorded, unsure=unsure, kind=kind)
        for kind, (waiting, recorded, unsure) in parts.items()
        if waiting or recorded or unsure
    ]


_SET_ASIDE = (Outcome.NOT_APPLICABLE, Outcome.LATER)


def _passed(finding: Finding) -> bool:
    """A point of a rule that is itself open was passed too, though that settles nothing about the code."""
    return finding.outcome in (Outcome.MEETS, Outcome.CONFIRM)


def _unsure(finding: Finding) -> bool:
    """Whether the rule applies could not be said: nobody has looked, and nothing says that nobody need look."""
    return not finding.steps and as_judged(finding).outcome in (Outcome.MISSING, Outcome.ENGINEER)
