"""Findings that say no more than another does, each with the one it is told under."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from compliance.checked import Checked
from compliance.findings import Finding, FindingKey, Outcome
from compliance.judging.set_reasons import SetsFail

STOPS = (Outcome.ENGINEER, Outcome.REVISE)
_LACKS = (Outcome.MISSING, Outcome.LATER)


def folded(checked: Checked) -> Mapping[FindingKey, Finding]:
    """By the key of each finding that is told under another, the one that stands by itself. Never one under a milder
    one, under one that was accepted while it was not, or under one that lacks less."""
    under: dict[FindingKey, Finding] = {}
    for finding, other in _pairs(checked):
        root = _root(other, under)
        if finding.key not in under and root.key != finding.key and _says_no_more(finding, root):
            under[finding.key] = root
    return {key: _root(one, under) for key, one in under.items()}


def _root(finding: Finding, under: Mapping[FindingKey, Finding]) -> Finding:
    while finding.key in under:
        finding = under[finding.key]
    return finding


def _says_no_more(finding: Finding, other: Finding) -> bool:
    if finding.outcome in STOPS and other.outcome in STOPS:
        accepted = finding.accepted is not None or other.accepted is None
        return other.outcome.rank <= finding.outcome.rank and accepted
    lacks_alike = finding.outcome is other.outcome and finding.outcome in _LACKS and finding.stage is other.stage
    return lacks_alike and bool(finding.missing) and set(finding.missing) <= set(other.missing)


def _pairs(checked: Checked) -> Iterator[tuple[Finding, Finding]]:
    """Each finding that may say no more than another, with that other: answers to one question under the one that
    governs, what follows under what it follows from, a wall of a mix under the set that fails."""
    for question in checked.questions:
        governs = question.governs
        yield from ((one, governs) for one in question.findings if one is not governs and one.remark is None)
    yield from _following(checked)
    sets = [one for one in checked.findings if one.about == "set" and one.outcome in STOPS]
    for finding in checked.findings:
        if isinstance(finding.reason, SetsFail):
            yield from ((finding, one) for one in sets if one.subject in finding.reason.failing)


def _following(checked: Checked) -> Iterator[tuple[Finding, Finding]]:
    follows = {(one.id, rule.id): rule.follows for one in checked.rule_sets for rule in one.rules if rule.follows}
    if not follows:
        return
    named = {path for paths in follows.values() for path in paths}
    leading = [one for one in checked.findings if f"{one.rule_set}/{one.rule}" in named]
    for finding in checked.findings:
        paths = follows.get((finding.rule_set, finding.rule), ())
        same = [one for one in leading if f"{one.rule_set}/{one.rule}" in paths]
        same = [one for one in same if (one.about, one.subject) == (finding.about, finding.subject)]
        yield from ((finding, one) for one in sorted(same, key=lambda one: one.outcome.rank))
