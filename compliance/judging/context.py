"""What every judge of a rule needs, and the pieces of a finding they share."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from compliance.facts.catalogue import FACTS
from compliance.facts.common.fact import Fact, FieldPath
from compliance.facts.evidence.evidence_facts import LAB_ROWS
from compliance.facts.geometry.subjects import Facts, Subject
from compliance.findings import Finding, LimitUsed, Outcome, Standing, lowest
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Place
from compliance.record import record, replace
from compliance.rules.rule_set import Rule
from compliance.steps import Given, Worked, no_steps
from compliance.units import Writer


@record
class Context:
    """`where` gives the place in the user's files of a path in the project; `gravity` in m/s² is for rules that
    count the own weight of beams."""

    project: Project
    facts: Facts
    specimens: Mapping[str, Sequence[Specimen]]
    where: Callable[[FieldPath], Place]
    writer: Writer
    gravity: float | None = None

    def field(self, path: FieldPath) -> str:
        """A field and its file, as a finding names what is missing: `walls.W3.mix in project.yaml`."""
        if path[0] == LAB_ROWS:
            return f"{path[2]} in {path[1]}"
        if " " in str(path[-1]):  # not a field that has a name, but something to describe under a section
            return f"{path[-1]} under {path[0]}: in {self.where(path).file}"
        return f"{'.'.join(map(str, path))} in {self.where(path).file}"


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
    reason: str,
    *,
    limits: tuple[LimitUsed, ...] = (),
    facts: Sequence[Fact] = (),
    worked: Worked = no_steps,
    missing: tuple[str, ...] = (),
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
        rule.rule_set, rule.id, rule.kind, rule.title, rule.clause, subject.about, subject.mark, outcome,
        lowest(standings), rule.say, reason, context.where(subject.path), numbers.value, numbers.relation,
        numbers.limit, numbers.margin, remedy, missing, limits, rule.source, subject.wall,
        rule.question, worked,
    )  # fmt: skip
    return withheld(found, rule)


def withheld(found: Finding, rule: Rule) -> Finding:
    """Where something holds that nobody knows to be asked for, there is nothing to meet: `confirm`, and where to read
    it. What does not hold, or is missing, stays as it is: that is the careful side."""
    if found.outcome is not Outcome.MEETS or found.standing is not Standing.OPEN:
        return found
    if rule.standing is Standing.OPEN:
        unknown = "the rule itself is not known to stand in the adopted code"
    else:
        unknown = "something it rests on is not known"
    reason = f"{found.reason}; {unknown}; where to read it: {rule.source or rule.clause}"
    return replace(found, outcome=Outcome.CONFIRM, reason=reason)


def label(name: str) -> str:
    """A name of a formula in words."""
    return FACTS[name].label if name in FACTS else name.replace("_", " ")


def kind_of(name: str) -> str:
    return FACTS[name].kind if name in FACTS else ""


def open_limits(limits: Sequence[LimitUsed]) -> list[LimitUsed]:
    return [limit for limit in limits if limit.standing is Standing.OPEN]


def open_reason(limits: Sequence[LimitUsed]) -> str:
    """Which limits are open, and where to read them."""
    parts = [f'"{limit.name.replace("_", " ")}" ({limit.read_in or limit.clause})' for limit in limits]
    return f"the limit is not known to this rule set: read {', '.join(parts)} in the adopted copy and enter it"
