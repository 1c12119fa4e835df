"""Items that require action, numbered: each for an engineer, to revise or missing, once, with its reason.

Checks that wait for the same missing record are one item. Open limits are no items: the checklist has them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from compliance.findings import Finding, Lack
from compliance.judging.reasons import Lacks
from compliance.record import record
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.grouping import reason_of, remedy_of, words
from compliance.report.marks import Mark, mark_of
from compliance.report.words.plain_missing import plain_list, plain_reason
from compliance.units import Writer

ASKING = (Mark.ENGINEER, Mark.REVISE, Mark.MISSING)
_RECORDS = (Lack.ROWS, Lack.TEST_SET, Lack.PASSING_SET, Lack.CELLS, Lack.CELL)


@record
class ActionItem:
    """`groups` are the rules that ask, in their order, with `findings` of them all; `reason` and `remedy` as
    sentences."""

    number: int
    mark: Mark
    groups: tuple[RuleFindings, ...]
    findings: tuple[Finding, ...]
    reason: str
    remedy: str

    @property
    def codes(self) -> tuple[str, ...]:
        return tuple(group.code for group in self.groups)


Found = list[tuple[RuleFindings, Finding]]


def action_items(sets: tuple[SetFindings, ...], writer: Writer) -> tuple[ActionItem, ...]:
    """Every finding that requires action in exactly one item; most serious first, numbered from 1."""
    groups = [group for one in sets for group in one.rules]
    items: list[ActionItem] = []
    for mark in ASKING:
        for found in _alike(groups, mark, writer):
            items.append(_item(len(items) + 1, mark, found, writer))
    return tuple(items)


def items_of_walls(items: Iterable[ActionItem]) -> Mapping[str, tuple[int, ...]]:
    """The numbers of the items of each wall, those of its openings and piers with them; "" for the building's."""
    found: dict[str, dict[int, None]] = {}
    for item in items:
        for one in item.findings:
            found.setdefault(one.wall, {})[item.number] = None
    return {wall: tuple(numbers) for wall, numbers in found.items()}


def _alike(groups: Iterable[RuleFindings], mark: Mark, writer: Writer) -> Iterator[Found]:
    same: dict[tuple[object, ...], Found] = {}
    for group in groups:
        for finding in group.findings:
            if mark_of(finding) is mark:
                same.setdefault(_key(group, finding, writer), []).append((group, finding))
    yield from same.values()


def _key(group: RuleFindings, finding: Finding, writer: Writer) -> tuple[object, ...]:
    """Findings with one key are one item."""
    if _lacks_records(finding):
        return ("lacks", *plain_list([finding]))
    return (group.code, *words(finding, writer))


def _lacks_records(finding: Finding) -> bool:
    """Whether what lacks says all there is to say, whichever rule waits for it."""
    if not finding.missing:
        return False
    records = all(one.kind in _RECORDS for one in finding.missing)
    return records or (isinstance(finding.reason, Lacks) and not finding.reason.because)


def _item(number: int, mark: Mark, found: Found, writer: Writer) -> ActionItem:
    findings = tuple(finding for _, finding in found)
    groups = tuple({group.code: group for group, _ in found}.values())
    if _lacks_records(findings[0]):
        reason = f"Not given: {'; '.join(plain_list(findings))}"
    elif plain := plain_reason(findings[0]):
        reason = f"{plain[:1].upper()}{plain[1:]}"
    else:
        reason = reason_of(findings, writer)
    remedy = remedy_of(findings[0]).removeprefix("Remedy: ")
    return ActionItem(number, mark=mark, groups=groups, findings=findings, reason=reason, remedy=remedy)
