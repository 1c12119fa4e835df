"""Items that require action, numbered: each for an engineer, to revise or missing, once, with its reason.

What lacks is one item however many checks wait for it, and for whichever walls. Open limits are no items: the
checklist has them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from compliance.findings import Finding, Lack
from compliance.judging.reasons import Lacks
from compliance.record import record
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.grouping import reason_of, subjects, words
from compliance.report.mark_runs import in_runs
from compliance.report.marks import Mark, mark_of
from compliance.report.value_words import closed
from compliance.report.words.plain_missing import PlainLack, plain_list, plain_missing, plain_reason
from compliance.units import Writer

ASKING = (Mark.ENGINEER, Mark.REVISE, Mark.MISSING)
_RECORDS = (Lack.ROWS, Lack.TEST_SET, Lack.PASSING_SET, Lack.CELLS, Lack.CELL)


@record
class ActionItem:
    """`groups` are the rules that ask, in their order, with `findings` of them all; `subject` is what they are about,
    `lacks` what is not given, where that is all there is to say, `reason` and `remedy` are sentences. A finding that
    lacks several things is in an item for each."""

    number: int
    mark: Mark
    groups: tuple[RuleFindings, ...]
    findings: tuple[Finding, ...]
    subject: str
    lacks: str
    reason: str
    remedy: str

    @property
    def codes(self) -> tuple[str, ...]:
        return tuple(group.code for group in self.groups)


@record
class _Found:
    """A finding with its rule, and, of one that waits for something that lacks, what."""

    group: RuleFindings
    finding: Finding
    lack: PlainLack | None = None


def action_items(sets: tuple[SetFindings, ...], writer: Writer) -> tuple[ActionItem, ...]:
    """Every finding that requires action in an item; most serious first, numbered from 1."""
    groups = [group for one in sets for group in one.rules]
    items: list[ActionItem] = []
    for mark in ASKING:
        same: dict[tuple[object, ...], list[_Found]] = {}
        for group in groups:
            for finding in group.findings:
                if mark_of(finding) is mark:
                    for key, found in _keyed(group, finding, writer):
                        same.setdefault(key, []).append(found)
        items += [_item(len(items) + 1 + index, mark, found, writer) for index, found in enumerate(same.values())]
    return tuple(items)


def items_of_walls(items: Iterable[ActionItem]) -> Mapping[str, tuple[int, ...]]:
    """The numbers of the items of each wall, those of its openings and piers with them; "" for the building's."""
    found: dict[str, dict[int, None]] = {}
    for item in items:
        for one in item.findings:
            found.setdefault(one.wall, {})[item.number] = None
    return {wall: tuple(numbers) for wall, numbers in found.items()}


def _keyed(group: RuleFindings, finding: Finding, writer: Writer) -> Iterable[tuple[tuple[object, ...], _Found]]:
    """Findings with one key are one item."""
    if not _only_lacks(finding):
        return [((group.code, *words(finding, writer)), _Found(group, finding))]
    lacks = dict.fromkeys(map(plain_missing, finding.missing))
    return [((one.what, one.kind), _Found(group, finding, one)) for one in lacks]


def _only_lacks(finding: Finding) -> bool:
    """Whether what lacks says all there is to say, whichever rule waits for it."""
    if not finding.missing:
        return False
    records = all(one.kind in _RECORDS for one in finding.missing)
    return records or (isinstance(finding.reason, Lacks) and not finding.reason.because)


def _item(number: int, mark: Mark, found: list[_Found], writer: Writer) -> ActionItem:
    findings = tuple({id(one.finding): one.finding for one in found}.values())
    groups = tuple({one.group.code: one.group for one in found}.values())
    lacks = [one.lack for one in found if one.lack]
    if lacks:
        subject, reason = _owners(lacks), f"Not given: {plain_list(lacks)}"
    else:
        subject = subjects({(one.about, one.subject): one for one in findings}.values())
        plain = plain_reason(findings[0])
        reason = f"{plain[:1].upper()}{plain[1:]}" if plain else reason_of(findings, writer)
    remedy = findings[0].remedy if len(groups) == 1 else None
    return ActionItem(
        number,
        mark=mark,
        groups=groups,
        findings=findings,
        subject=subject,
        lacks=plain_list(lacks),
        reason=reason,
        remedy=closed(remedy) if remedy else "",
    )


def _owners(lacks: Sequence[PlainLack]) -> str:
    """Whose it is that lacks; the project where it is nobody else's."""
    marks = dict.fromkeys(one.mark for one in lacks if one.mark)
    kind = next((one.kind for one in lacks if one.kind), "")
    return f"{kind} {', '.join(in_runs(list(marks)))}".strip() if marks else "project"
