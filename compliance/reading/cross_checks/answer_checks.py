"""Whether each answer and each inspection record names one rule of one adopted rule set, and something it is about."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Sequence

from compliance.facts.common.fact import FieldPath
from compliance.facts.geometry.subjects import Facts
from compliance.model.people import Attestation, InspectionRecord
from compliance.model.project import Project
from compliance.problems import Place, Problem
from compliance.refused import nearest
from compliance.rules.rule_set import Rule, RuleSet

_SECTIONS = {"attestations": "attest", "inspections": "inspect"}
"""Which kind of rule the entries of a section are for."""


def answer_problems(
    project: Project,
    rule_sets: Sequence[RuleSet],
    dropped: Collection[tuple[str, str]],
    facts: Facts,
    where: Callable[[FieldPath], Place],
) -> Iterator[Problem]:
    """A problem for each answer that would count for nothing, or for more than it says. What was `dropped` (rule set
    and rule) may keep its answers."""
    for section, kind in _SECTIONS.items():
        for index, record in enumerate(getattr(project, section)):
            path: FieldPath = (section, index)
            found = _rules(record, rule_sets)
            if not found and any(record.is_of(*one) for one in dropped):
                continue
            asking = [rule for rule in found if getattr(rule, kind)]
            if len(asking) != 1:
                yield _not_one(
                    record, kind=kind, found=found, asking=asking, rule_sets=rule_sets, place=where((*path, "rule"))
                )
                continue
            yield from _about(record, asking[0], facts, where((*path, "about")))


def shared_ids(rule_sets: Sequence[RuleSet]) -> frozenset[str]:
    """The ids that rules for answers or for inspections have in more than one rule set."""
    count = Counter((kind, rule.id) for one in rule_sets for rule in one.rules for kind in _SECTIONS.values()
                    if getattr(rule, kind))  # fmt: skip
    return frozenset(rule for (_, rule), times in count.items() if times > 1)


def _rules(record: Attestation | InspectionRecord, rule_sets: Sequence[RuleSet]) -> list[Rule]:
    return [rule for one in rule_sets for rule in one.rules if record.is_of(rule.rule_set, rule.id)]


def _not_one(
    record: Attestation | InspectionRecord,
    kind: str,
    found: Sequence[Rule],
    asking: Sequence[Rule],
    rule_sets: Sequence[RuleSet],
    place: Place,
) -> Problem:
    """Why the entry belongs to no rule, or to several."""
    if asking:
        names = [f"{rule.rule_set}/{rule.id}" for rule in asking]
        wrong = (
            f"{record.rule} stands in {' and '.join(rule.rule_set for rule in asking)}, and each asks in its own words"
        )
        return Problem(place, "answer-ambiguous", wrong, f"write {' or '.join(names)}; give each its own entry")
    if found:
        section = next((name for name, other in _SECTIONS.items() if getattr(found[0], other)), None)
        wrong = f"{record.rule} asks for no {'answer' if kind == 'attest' else 'inspection'}"
        instead = f"write it under {section}:" if section else "remove it: the rule is checked by computation"
        return Problem(place, "answer-rule", wrong, instead)
    known = [rule for one in rule_sets for rule in one.rules if getattr(rule, kind)]
    near = nearest(record.rule, (name for rule in known for name in (rule.id, f"{rule.rule_set}/{rule.id}")))
    wrong = f"no adopted rule set has a rule {record.rule!r}"
    return Problem(place, "answer-rule", wrong, f"did you mean {near}?" if near else "see earthwall rules show")


def _about(record: Attestation | InspectionRecord, rule: Rule, facts: Facts, place: Place) -> Iterator[Problem]:
    """The mark must be of something that the rule is about, or of the wall it is part of."""
    if record.about is None:
        return
    subjects = facts.of(rule.about)
    marks = dict.fromkeys((*subjects, *(one.wall for one in subjects.values() if one.wall)))
    if record.about in marks:
        return
    near = nearest(record.about, marks)
    known = ", ".join(list(marks)[:20]) or f"there is no {rule.about} here; leave about: out"
    wrong = f"{record.rule} is about each {rule.about}, and no {rule.about} is called {record.about!r}"
    yield Problem(place, "answer-mark", wrong, f"did you mean {near}?" if near else f"known: {known}")
