"""What stops the building: findings for an engineer or to revise, gathered by what they have in common."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

from compliance.findings import Finding, FindingKey, Outcome
from compliance.record import record
from compliance.report.answer.folding import STOPS


@record
class Cause:
    """One rule that does not hold, with its findings, the one furthest outside the limit first. `folded` is how many
    others are told under them."""

    findings: tuple[Finding, ...]
    folded: int = 0

    @property
    def worst(self) -> Finding:
        return self.findings[0]

    @property
    def outcome(self) -> Outcome:
        return self.worst.outcome

    @property
    def key(self) -> str:
        return cause_of_rule(self.worst)

    @property
    def is_accepted(self) -> bool:
        return all(one.accepted is not None for one in self.findings)

    @property
    def in_order(self) -> tuple[str, ...]:
        """The marks in the order of the project."""
        return tuple(sorted((one.subject for one in self.findings), key=_by_number))


def _by_number(mark: str) -> tuple[object, ...]:
    """W2 before W10."""
    parts: list[object] = []
    digits = ""
    for char in mark + " ":
        if char.isascii() and char.isdigit():
            digits += char
            continue
        parts += [(1, int(digits), "")] if digits else []
        digits = ""
        parts.append((0, 0, char))
    return tuple(parts)


def cause_of_rule(finding: Finding) -> str:
    """What stands for a rule in `cause`."""
    return f"{finding.rule_set}/{finding.rule}"


def causes(findings: Sequence[Finding], under: Collection[FindingKey], roots: Sequence[Finding]) -> tuple[Cause, ...]:
    """Those for an engineer first, then those to revise; accepted deviations by themselves, last of each. `under` are
    told elsewhere, `roots` what each of these stands under."""
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for one in findings:
        if one.outcome in STOPS and one.key not in under:
            groups.setdefault((one.rule_set, one.rule, one.outcome, one.accepted is None), []).append(one)
    counts: dict[FindingKey, int] = {}
    for root in roots:
        counts[root.key] = counts.get(root.key, 0) + 1
    found = [
        Cause(tuple(sorted(group, key=_margin)), sum(counts.get(one.key, 0) for one in group))
        for group in groups.values()
    ]
    return tuple(sorted(found, key=lambda one: (one.is_accepted, one.outcome.rank, _margin(one.worst))))


def _margin(finding: Finding) -> float:
    """The furthest outside its limit first; what has no margin after all that have one."""
    if finding.margin is None or math.isnan(finding.margin):
        return math.inf
    return finding.margin
