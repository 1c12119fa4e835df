"""Deviations that an official accepted: laid over the findings they are about, or lapsed.

A finding that is accepted keeps its outcome: it is accepted, and does not meet. An acceptance holds for one finding as
it stood; where its value, its limit, its rule or the edition changes, or its last day passes, it is gone by itself.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import fields

from compliance.facts.common.fact import FieldPath
from compliance.findings import Accepted, Finding, Outcome, Reason
from compliance.judging.reasons import Deviates
from compliance.model.people import AcceptedDeviation
from compliance.model.project import Project
from compliance.problems import Place, Problem
from compliance.record import replace
from compliance.rules.formulas.formula import Formula
from compliance.rules.rule_set import Rule, RuleSet
from compliance.steps import Given

ACCEPTABLE = (Outcome.REVISE, Outcome.ENGINEER)
"""What can be accepted: a value outside a limit. What is missing or not known cannot."""


def with_acceptances(
    project: Project, findings: Sequence[Finding], rule_sets: Sequence[RuleSet], where: Callable[[FieldPath], Place]
) -> tuple[tuple[Finding, ...], tuple[Problem, ...]]:
    """The findings with what was accepted of them, and a warning for each acceptance that has lapsed."""
    if not project.accepted:
        return tuple(findings), ()
    places = {(one.rule_set, one.rule, one.subject): index for index, one in enumerate(findings)}
    found = list(findings)
    lapsed = []
    for index, one in enumerate(project.accepted):
        at = places.get((one.rule_set, one.rule, one.about))
        finding = None if at is None else findings[at]
        why = lapsed_because(project, one, finding, rule_sets)
        if why:
            wrong = f"the acceptance of {one.rule} for {one.about} by {one.official} has lapsed: {why}"
            instead = "ask the official again, or take the entry out"
            lapsed.append(Problem(where(("accepted", index)), "acceptance-lapsed", wrong, instead, warning=True))
        elif at is not None:
            found[at] = _accepted(found[at], one)
    return tuple(found), tuple(lapsed)


def lapsed_because(
    project: Project, one: AcceptedDeviation, finding: Finding | None, rule_sets: Sequence[RuleSet]
) -> str:
    """Why an acceptance no longer holds; empty where it does."""
    if finding is None:
        return "there is no such finding now"
    if finding.outcome not in ACCEPTABLE:
        return f"the finding is {finding.outcome.words} now"
    if one.until is not None and project.project.date > one.until:
        return f"it held until {one.until.isoformat()}, and the project is dated {project.project.date.isoformat()}"
    if one.on > project.project.date:
        return f"it is dated {one.on.isoformat()}, after the project ({project.project.date.isoformat()})"
    rule_set, rule = rule_of(rule_sets, finding)
    for what, was, now in (
        ("the edition", one.edition, rule_set.edition),
        ("the value", one.value, text_of(finding.value)),
        ("the limit", one.limit, text_of(finding.limit)),
    ):
        if was != now:
            return f"{what} was {was or 'none'} and is {now or 'none'}"
    return "" if one.digest == digest_of_finding(finding, rule_set, rule) else "the rule or what it rests on changed"


def rule_of(rule_sets: Sequence[RuleSet], finding: Finding) -> tuple[RuleSet, Rule]:
    """The rule that a finding is of, and its rule set."""
    rule_set = next(one for one in rule_sets if one.id == finding.rule_set)
    return rule_set, next(one for one in rule_set.rules if one.id == finding.rule)


def text_of(given: Given | None) -> str:
    """A value in SI with nine digits, the same whichever units the project prints."""
    if given is None:
        return ""
    value = given.value
    return f"{value:.9g} SI ({given.kind})" if isinstance(value, float) else str(value)


def digest_of_finding(finding: Finding, rule_set: RuleSet, rule: Rule) -> str:
    """A hash over all that an acceptance holds for: the rule with its limits and tables, its edition, and the value."""
    parts = [
        rule_set.id, rule_set.edition, rule.id, rule.clause, rule.otherwise.value,
        rule.when.text if rule.when else "", rule.check.text if rule.check else "",
        *(f"{name}={text_of(limit.given)}" for name, limit in sorted(rule.limits.items())),
        *(f"{name}={_cells(table.cells)}" for name, table in sorted(rule.tables.items())),
        finding.subject, finding.outcome.value, text_of(finding.value), finding.relation, text_of(finding.limit),
        "" if finding.value else _written(finding.reason),
    ]  # fmt: skip
    return hashlib.sha256("\0".join(parts).encode("utf-8")).hexdigest()


def _written(reason: object) -> str:
    """All that a reason holds, the same whichever units the project prints."""
    match reason:
        case Given():
            return text_of(reason)
        case Formula():
            return reason.text
        case Reason():
            held = [getattr(reason, one.name) for one in fields(reason)]
            return f"{reason.code}({'; '.join(map(_written, held))})"
        case tuple():
            return ", ".join(map(_written, reason))
    return f"{reason:.9g}" if isinstance(reason, float) else str(reason)


def _cells(cells: Sequence[Sequence[float | None]]) -> str:
    return ";".join(",".join("open" if cell is None else f"{cell:.9g}" for cell in row) for row in cells)


def _accepted(finding: Finding, one: AcceptedDeviation) -> Finding:
    until = one.until.isoformat() if one.until else ""
    accepted = Accepted(
        one.official, on=one.on.isoformat(), document=one.document, condition=one.condition or "", until=until
    )
    return replace(finding, accepted=accepted, reason=Deviates(finding.reason, accepted.words))
