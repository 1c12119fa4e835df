"""The check as text for the terminal: walls first, worst first, without colour and as wide as asked.

What a builder must act on stands with its wall. What is the same for many walls is said once below: limits to be
read in the adopted copy, and questions that only a person can answer.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence

from compliance.checked import Checked
from compliance.facts.catalogue import ABOUT_LABELS
from compliance.findings import Finding, Outcome
from compliance.units import Writer

NARROWEST = 60
_INDENT = 11


def check_table(checked: Checked, width: int, all_lines: bool = False) -> str:
    """The whole text. With `all_lines` every finding has its line, those that meet and stand apart too."""
    writer = Writer(checked.project.project.units)
    width = max(width, NARROWEST)
    head = checked.project.project
    lines = [f"{head.name}, revision {head.revision}"]
    for one in checked.rule_sets:
        lines += _hung(f"{one.id}: {one.title}, {one.edition} ({one.status})", width, 2, 6)
    for heading, findings in _groups(checked):
        lines += ["", *_heading(heading, width), *_group(findings, writer, width, all_lines)]
    lines += _confirm(checked.findings, writer, width)
    lines += _answers(checked.findings, width)
    lines += ["", *textwrap.wrap(tally_line(checked), width)]
    return "\n".join(lines) + "\n"


def tally_line(checked: Checked) -> str:
    """How many findings of each outcome, on one line."""
    unsure = sum(one.outcome is Outcome.MEETS and one.wants_confirming for one in checked.findings)
    parts = [f"{count} {outcome.value}" for outcome, count in checked.tally().items()]
    reserve = f" ({unsure} of those that meet rest on a limit to be confirmed)" if unsure else ""
    return ", ".join(parts) + reserve


def _heading(text: str, width: int) -> list[str]:
    return [text, "-" * min(len(text), width)]


def _shared(finding: Finding) -> bool:
    """Said once for all subjects, below the walls."""
    return finding.outcome is Outcome.CONFIRM or (finding.outcome is Outcome.MISSING and finding.kind == "attest")


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


def _group(findings: Sequence[Finding], writer: Writer, width: int, all_lines: bool) -> list[str]:
    lines = []
    counted = dict.fromkeys(Outcome, 0)
    owed = 0
    for finding in findings:
        if _shared(finding):
            owed += finding.kind == "attest"
            counted[finding.outcome] += finding.kind != "attest"
        elif finding.outcome not in (Outcome.MEETS, Outcome.APART):
            lines += _full(finding, writer, width)
        elif all_lines:
            lines.append(_brief(finding, writer, width))
        else:
            counted[finding.outcome] += 1
    said = [f"{count} {outcome.value}" for outcome, count in counted.items() if count]
    said += [f"{owed} {'answer' if owed == 1 else 'answers'} owed"] if owed else []
    return [*lines, "  " + ", ".join(said)] if said else lines


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
    line = f"  {finding.verdict:<8} {finding.subject}: {finding.title}{tail}"
    return line if len(line) <= width else line[: width - 3] + "..."


def _full(finding: Finding, writer: Writer, width: int) -> list[str]:
    shown = numbers(finding, writer)
    head = f"{finding.verdict.upper():<8} {finding.subject}: {finding.title}" + (f"  [{shown}]" if shown else "")
    standing = f", limit {finding.standing.value}" if finding.standing else ""
    says = [f"{finding.clause} ({finding.rule}{standing}): {finding.reason}"]
    if finding.missing:
        says.append(f"write: {'; '.join(finding.missing)}")
    if finding.remedy:
        says.append(f"do: {finding.remedy}")
    return _headed(head, width) + [line for say in says for line in _wrapped(say, width)]


def _hung(text: str, width: int, first: int, rest: int) -> list[str]:
    """Lines of at most `width`, indented by `first` and `rest`; ids of rules are not broken at their hyphens."""
    return textwrap.wrap(text, width, initial_indent=" " * first, subsequent_indent=" " * rest, break_on_hyphens=False)


def _headed(text: str, width: int) -> list[str]:
    return _hung(text, width, 2, _INDENT)


def _wrapped(text: str, width: int) -> list[str]:
    return _hung(text, width, _INDENT, _INDENT)


def _by_rule(findings: Iterable[Finding]) -> list[list[Finding]]:
    rules: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        rules.setdefault((finding.rule_set, finding.rule), []).append(finding)
    return list(rules.values())


def _confirm(findings: Iterable[Finding], writer: Writer, width: int) -> list[str]:
    """Each rule whose limit is open, once, with the subjects that wait for it and their values."""
    groups = _by_rule(one for one in findings if one.outcome is Outcome.CONFIRM)
    if not groups:
        return []
    lines = ["", *_heading("Limits to read in the adopted copy", width)]
    for group in groups:
        first = group[0]
        head = f"CONFIRM  {first.title}: {first.clause} ({first.rule_set}, {first.rule})"
        lines += _headed(head, width)
        lines += _wrapped(first.reason, width)
        values = [f"{one.subject} {numbers(one, writer)}".strip() for one in group]
        lines += _wrapped(f"waits for it: {', '.join(values)}", width)
    return lines


def _answers(findings: Iterable[Finding], width: int) -> list[str]:
    """Each question only a person can answer, once, with the subjects it is asked of."""
    groups = _by_rule(one for one in findings if one.outcome is Outcome.MISSING and one.kind == "attest")
    if not groups:
        return []
    lines = ["", *_heading("Answers owed: write them under attestations: in project.yaml", width)]
    for group in groups:
        first = group[0]
        head = f"MISSING  {first.title}: {first.clause} (rule: {first.rule})"
        lines += _headed(head, width)
        lines += _wrapped(first.reason, width)
        lines += _wrapped(f"about: {', '.join(one.subject for one in group)}", width)
    return lines
