"""The check as text for the terminal: walls first, worst first, without colour and as wide as asked.

What a builder must act on stands with its wall. What is the same for many walls is said once below: values that all of
them lack, limits to be read in the adopted copy, and questions that only a person can answer.
"""

from __future__ import annotations

import textwrap
from collections.abc import Collection, Iterable, Sequence

from compliance.checked import Checked
from compliance.facts.catalogue import ABOUT_LABELS
from compliance.findings import Finding, Outcome
from compliance.judging.reasons import Lacks
from compliance.output.terminal.hanging_indent import headed, heading, hung, wrapped
from compliance.output.terminal.repeated_answers import (
    is_open,
    is_unanswered,
    lacking_alike,
    lacking_lines,
    open_lines,
    unanswered_lines,
)
from compliance.report.words.missing_words import missing_texts, reason_text
from compliance.units import Writer

NARROWEST = 60
_ONLY_LACKS = Lacks()


def check_table(checked: Checked, width: int, all_lines: bool = False, of: int = 0) -> str:
    """The whole text. With `all_lines` every finding has its line, those that meet or do not apply too. Where only some
    findings are to be shown, `of` says how many there are."""
    writer = Writer(checked.project.project.units)
    width = max(width, NARROWEST)
    head = checked.project.project
    lines = [f"{head.name}, revision {head.revision}"]
    for one in checked.rule_sets:
        lines += hung(f"{one.id}: {one.title}, {one.edition} ({one.status})", width, 2, 6)
    alike = lacking_alike(checked.findings)
    elsewhere = {id(one) for group in alike for one in group}
    for name, findings in _groups(checked):
        lines += [
            "",
            *heading(name, width),
            *_group(findings, elsewhere=elsewhere, writer=writer, width=width, all_lines=all_lines),
        ]
    lines += lacking_lines(alike, width)
    lines += open_lines(checked.findings, numbers, writer, width)
    lines += unanswered_lines(checked.findings, writer, width)
    lines += ["", *textwrap.wrap(tally_line(checked, of), width)]
    return "\n".join(lines) + "\n"


def tally_line(checked: Checked, of: int = 0) -> str:
    """How many findings of each outcome, on one line; of a part of them (`of` all) only those that are in it."""
    unsure = sum(one.outcome is Outcome.MEETS and one.wants_confirming for one in checked.findings)
    parts = [f"{count} {outcome.words}" for outcome, count in checked.tally().items() if count or not of]
    reserve = f" ({unsure} of those that meet rest on a limit to be confirmed)" if unsure else ""
    part = f"shown: {len(checked.findings)} of {of} findings{': ' if parts else ''}" if of else ""
    return part + ", ".join(parts) + reserve


def _shared(finding: Finding) -> bool:
    """Said once for all subjects, below the walls."""
    return is_open(finding) or is_unanswered(finding)


def _groups(checked: Checked) -> list[tuple[str, list[Finding]]]:
    """Walls first, each with its openings and piers, then the rest; the worst group of each first."""
    groups: dict[tuple[bool, str], list[Finding]] = {}
    for finding in checked.findings:
        groups.setdefault((not finding.wall, _group_name(finding, checked)), []).append(finding)
    order = sorted(groups, key=lambda key: (key[0], _badness(groups[key])))
    return [(name, sorted(groups[_, name], key=lambda one: one.outcome.rank)) for _, name in order]


def _group_name(finding: Finding, checked: Checked) -> str:
    if finding.wall:
        wall = checked.project.walls[finding.wall]
        return f"Wall {finding.wall}, {wall.name}" if wall.name else f"Wall {finding.wall}"
    label = ABOUT_LABELS[finding.about].capitalize()
    return label if finding.subject == finding.about else f"{label} {finding.subject}"


def _badness(findings: Iterable[Finding]) -> tuple[int, ...]:
    """To sort groups: by how many findings of the worst outcome, then of the next."""
    counts = [0] * len(Outcome)
    for finding in findings:
        if not _shared(finding):
            counts[finding.outcome.rank] -= 1
    return tuple(counts)


def _group(
    findings: Sequence[Finding], elsewhere: Collection[int], writer: Writer, width: int, all_lines: bool
) -> list[str]:
    lines = []
    counted = dict.fromkeys(Outcome, 0)
    unanswered = 0
    for finding in findings:
        if _shared(finding):
            unanswered += is_unanswered(finding)
            counted[finding.outcome] += not is_unanswered(finding)
        elif id(finding) in elsewhere:
            counted[finding.outcome] += 1
        elif finding.outcome not in (Outcome.LATER, Outcome.MEETS, Outcome.NOT_APPLICABLE):
            lines += _full(finding, writer, width)
        elif all_lines:
            lines.append(_brief(finding, writer, width))
        else:
            counted[finding.outcome] += 1
    phrases = [f"{count} {outcome.words}" for outcome, count in counted.items() if count]
    phrases += [f"{unanswered} unanswered {'question' if unanswered == 1 else 'questions'}"] if unanswered else []
    return [*lines, "  " + ", ".join(phrases)] if phrases else lines


def numbers(finding: Finding, writer: Writer) -> str:
    """Value, relation and limit on one line; empty where the rule compares nothing."""
    value, limit = finding.value, finding.limit
    if value is None:
        return ""
    if limit is None:
        return value.written(writer)
    if isinstance(value.value, float) and isinstance(limit.value, float):
        shown, allowed = writer.pair(value.value, limit.value, value.kind)
    else:
        shown, allowed = value.written(writer), limit.written(writer)
    return f"{shown} {finding.relation} {allowed}"


def _brief(finding: Finding, writer: Writer, width: int) -> str:
    tail = f"  [{numbers(finding, writer)}]" if finding.outcome is Outcome.MEETS and finding.value else ""
    tail = f"  [{finding.stage.words}]" if finding.outcome is Outcome.LATER else tail
    line = f"  {finding.verdict:<8} {finding.subject}: {finding.title}{tail}"
    return line if len(line) <= width else line[: width - 3] + "..."


def _full(finding: Finding, writer: Writer, width: int) -> list[str]:
    shown = numbers(finding, writer)
    head = f"{finding.verdict.upper():<8} {finding.subject}: {finding.title}" + (f"  [{shown}]" if shown else "")
    standing = f", limit {finding.standing.value}" if finding.standing else ""
    rests = f"{finding.clause} ({finding.rule}{standing})"
    plainly_missing = finding.reason == _ONLY_LACKS and bool(finding.missing)  # as the line below says, too
    says = [rests if plainly_missing else f"{rests}: {reason_text(finding, writer)}"]
    if finding.missing:
        says.append(f"write: {'; '.join(missing_texts(finding))}")
    if finding.remedy:
        says.append(f"do: {finding.remedy}")
    return headed(head, width) + [line for say in says for line in wrapped(say, width)]
