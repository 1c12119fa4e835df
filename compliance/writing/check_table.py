"""The check as a table for the terminal: by wall, worst first, without colour and as wide as asked."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from compliance.checked import Checked
from compliance.facts.catalogue import ABOUT_LABELS
from compliance.findings import Finding, Outcome
from compliance.units import Writer

_SHOWN_BRIEFLY = (Outcome.MEETS, Outcome.APART)
NARROWEST = 60


def check_table(checked: Checked, width: int, all_lines: bool = False) -> str:
    """Groups by wall and by what is no wall, worst first; findings that meet are one line each with
    `all_lines`, else only counted."""
    writer = Writer(checked.project.project.units)
    lines = [f"{checked.project.project.name}, revision {checked.project.project.revision}"]
    lines += [f"  {one.id}: {one.title}, {one.edition} ({one.status})" for one in checked.rule_sets]
    for heading, findings in _groups(checked):
        lines += ["", heading, "-" * min(len(heading), width)]
        lines += _group(findings, writer, max(width, NARROWEST), all_lines)
    lines += ["", tally_line(checked)]
    return "\n".join(lines) + "\n"


def tally_line(checked: Checked) -> str:
    """How many findings of each outcome, on one line."""
    counts = checked.tally()
    unsure = sum(one.outcome is Outcome.MEETS and one.wants_confirming for one in checked.findings)
    parts = [f"{count} {outcome.value}" for outcome, count in counts.items()]
    reserve = f" ({unsure} of those that meet rest on a limit to be confirmed)" if unsure else ""
    return ", ".join(parts) + reserve


def _groups(checked: Checked) -> list[tuple[str, list[Finding]]]:
    """Walls first, each with its openings and piers, then the rest; the worst group of each first."""
    groups: dict[str, list[Finding]] = {}
    for finding in checked.findings:
        key = (
            f"Wall {finding.wall}" if finding.wall else f"{ABOUT_LABELS[finding.about].capitalize()} {finding.subject}"
        )
        groups.setdefault(
            "Project" if finding.about == "project" else "Site" if finding.about == "site" else key, []
        ).append(finding)
    walls = {heading for heading, findings in groups.items() if findings[0].wall}
    order = sorted(groups, key=lambda heading: (heading not in walls, _worst(groups[heading])))
    return [
        (_heading(heading, checked), sorted(groups[heading], key=lambda one: one.outcome.rank)) for heading in order
    ]


def _heading(heading: str, checked: Checked) -> str:
    wall = checked.project.walls.get(heading.removeprefix("Wall "))
    return f"{heading}, {wall.name}" if wall and wall.name else heading


def _worst(findings: Iterable[Finding]) -> tuple[int, ...]:
    """To sort groups: by how many findings of the worst outcome, then of the next."""
    counts = [0] * len(Outcome)
    for finding in findings:
        counts[finding.outcome.rank] -= 1
    return tuple(counts)


def _group(findings: list[Finding], writer: Writer, width: int, all_lines: bool) -> list[str]:
    lines = []
    for finding in findings:
        if finding.outcome not in _SHOWN_BRIEFLY:
            lines += _full(finding, writer, width)
        elif all_lines:
            lines.append(_brief(finding, writer, width))
    if not all_lines:
        counts = {outcome: sum(one.outcome is outcome for one in findings) for outcome in _SHOWN_BRIEFLY}
        said = [f"{count} {outcome.value}" for outcome, count in counts.items() if count]
        if said:
            lines.append("  " + ", ".join(said))
    return lines


def _numbers(finding: Finding, writer: Writer) -> str:
    value, limit = finding.value, finding.limit
    if value is None:
        return ""
    if limit is None:
        return f"{value.written(writer)}; limit open" if finding.outcome is Outcome.CONFIRM else value.written(writer)
    if isinstance(value.value, float) and isinstance(limit.value, float):
        shown, allowed = writer.pair(value.value, limit.value, value.kind)
    else:
        shown, allowed = value.written(writer), limit.written(writer)
    return f"{shown} {finding.relation} {allowed}"


def _brief(finding: Finding, writer: Writer, width: int) -> str:
    head = f"  {finding.verdict:<9} {finding.subject}: {finding.title}"
    tail = _numbers(finding, writer) if finding.outcome is Outcome.MEETS else ""
    return (
        textwrap.shorten(f"{head}  {tail}", width, placeholder=" ...")
        if len(head) + len(tail) > width
        else f"{head}  {tail}".rstrip()
    )


def _full(finding: Finding, writer: Writer, width: int) -> list[str]:
    numbers = _numbers(finding, writer)
    head = f"{finding.verdict.upper():<9} {finding.subject}: {finding.title}" + (f"  [{numbers}]" if numbers else "")
    standing = f", limit {finding.standing.value}" if finding.standing else ""
    says = [f"{finding.clause} ({finding.rule}{standing}): {finding.reason}"]
    if finding.missing and finding.outcome is Outcome.MISSING:
        says.append(f"write: {'; '.join(finding.missing)}")
    if finding.remedy:
        says.append(f"do: {finding.remedy}")
    lines = textwrap.wrap(head, width - 2, initial_indent="  ", subsequent_indent=" " * 12)
    for say in says:
        lines += textwrap.wrap(say, width - 2, initial_indent=" " * 12, subsequent_indent=" " * 12)
    return lines
