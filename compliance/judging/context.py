"""What every judge of a rule needs, and the pieces of a finding they share."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import field

from compliance.facts.catalogue import FACTS
from compliance.facts.common.fact import Fact, FieldPath
from compliance.facts.doubts.doubt import Doubt
from compliance.facts.evidence.described_things import ChangedThings
from compliance.facts.geometry.subjects import Facts, Subject
from compliance.findings import Finding, Lack, LimitUsed, Missing, Outcome, Reason, Standing, lowest
from compliance.judging.reasons import Entry, OpenLimits, OpenRule
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Place
from compliance.record import record, replace
from compliance.rules.rule_set import Rule, RuleSet
from compliance.steps import Given, Worked, no_steps
from compliance.units import Writer


@record
class Context:
    """`where` gives the place in the user's files of a path in the project; `gravity` in m/s² is for rules that
    count the own weight of beams; `doubts` are those about each set, by its mark. A paper older than
    `oldest_paper`, in days, is a slip in the year. `points` are the adopted inspection rules of each stage, and
    `shared_ids` the ids that rules of several adopted rule sets have. `changed` are the things that are not as they
    were in a revision that was issued."""

    project: Project
    facts: Facts
    specimens: Mapping[str, Sequence[Specimen]]
    where: Callable[[FieldPath], Place]
    writer: Writer
    gravity: float | None = None
    doubts: Mapping[str, Sequence[Doubt]] = field(default_factory=dict)
    oldest_paper: float | None = None
    points: Mapping[str, Sequence[str]] = field(default_factory=dict)
    shared_ids: frozenset[str] = frozenset()
    changed: ChangedThings = field(default_factory=dict)

    def lacking(self, lacks: FieldPath | Missing) -> Missing:
        """What a fact lacks, with its file: a field of the project where it is only a path."""
        if isinstance(lacks, Missing):
            return lacks if lacks.file else replace(lacks, file=self.where((_SECTIONS[lacks.kind],)).file)
        return Missing(Lack.FIELD, lacks, self.where(lacks).file)

    def answer_to(self, rule: Rule, subject: str) -> Missing:
        """An answer to a rule, which is named as the answer has to name it."""
        name = f"{rule.rule_set}/{rule.id}" if rule.id in self.shared_ids else rule.id
        return self.lacking(Missing(Lack.ANSWER, (name, subject), ""))


def inspection_points(rule_sets: Iterable[RuleSet]) -> dict[str, tuple[str, ...]]:
    """The ids of the inspection rules of each stage."""
    found: dict[str, tuple[str, ...]] = {}
    for rule_set in rule_sets:
        for rule in rule_set.rules:
            if rule.inspect:
                found[rule.inspect.stage] = (*found.get(rule.inspect.stage, ()), rule.id)
    return found


_SECTIONS = {Lack.TEST_SET: "test_sets", Lack.PASSING_SET: "test_sets", Lack.ANSWER: "attestations"}
"""Where what has no file of its own is written."""


@record
class Numbers:
    """The comparison that decides: `value relation limit`, and the margin left."""

    value: Given | None = None
    relation: str = ""
    limit: Given | None = None
    margin: float | None = None


NO_NUMBERS = Numbers()


def finding(
    context: Context,
    rule: Rule,
    subject: Subject,
    outcome: Outcome,
    reason: Reason,
    *,
    limits: tuple[LimitUsed, ...] = (),
    facts: Sequence[Fact] = (),
    worked: Worked = no_steps,
    missing: tuple[Missing, ...] = (),
    numbers: Numbers = NO_NUMBERS,
) -> Finding:
    """A finding with what the rule and the subject say; its standing is the lowest it rests on. None that is open
    `meets`."""
    standings = [limit.standing for limit in limits]
    standings += [fact.standing for fact in facts if fact.standing]
    if rule.standing:
        standings.append(rule.standing)
    remedy = rule.remedy.say if rule.remedy and outcome in (Outcome.REVISE, Outcome.ENGINEER) else ""
    found = Finding(
        rule_set=rule.rule_set, rule=rule.id, kind=rule.kind, title=rule.title, clause=rule.clause,
        about=subject.about, subject=subject.mark, outcome=outcome, standing=lowest(standings), say=rule.say,
        reason=reason, place=context.where(subject.path), value=numbers.value, relation=numbers.relation,
        limit=numbers.limit, margin=numbers.margin, remedy=remedy, missing=missing, limits=limits,
        source=rule.source, wall=subject.wall, question=rule.question, worked=worked,
        stage=rule.stage, status=rule.status,
    )  # fmt: skip
    return withheld(found, rule)


def withheld(found: Finding, rule: Rule) -> Finding:
    """Where something holds that nobody knows to be asked for, there is nothing to meet: `confirm`, and where to read
    it. What does not hold, or is missing, stays as it is: that is the careful side."""
    if found.outcome is not Outcome.MEETS or found.standing is not Standing.OPEN:
        return found
    reason = OpenRule(found.reason, rule.standing is Standing.OPEN, rule.source or rule.clause)
    return replace(found, outcome=Outcome.CONFIRM, reason=reason)


def label(name: str) -> str:
    """A name of a formula in words."""
    return FACTS[name].label if name in FACTS else name.replace("_", " ")


def kind_of(name: str) -> str:
    return FACTS[name].kind if name in FACTS else ""


def open_limits(limits: Sequence[LimitUsed]) -> list[LimitUsed]:
    return [limit for limit in limits if limit.standing is Standing.OPEN]


def open_reason(limits: Sequence[LimitUsed]) -> OpenLimits:
    """Which limits are open, and where to read them."""
    return OpenLimits(tuple(Entry(limit.name, read_in=limit.read_in or limit.clause) for limit in limits))
