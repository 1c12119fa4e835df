"""One finding worked out step by step, for the terminal."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.findings import Finding
from compliance.report.words.missing_words import missing_text, reason_text
from compliance.units import Writer


def explanation(finding: Finding, checked: Checked) -> str:
    """The rule, the numbers put in, the limit with its standing, and what follows."""
    writer = Writer(checked.project.project.units)
    lines = [
        f"{finding.subject}: {finding.title}",
        f"{finding.rule_set}, {finding.clause}. {finding.say}",
        "",
    ]
    for step in finding.steps:
        source = f"  [{step.source}]" if step.source else ""
        lines.append(f"  {step.line(writer)}{source}")
    if finding.steps:
        lines.append("")
    for limit in finding.limits:
        value = "open" if limit.value is None else _limit(limit.value.value, limit.value.kind, writer)
        where = limit.source or limit.read_in or limit.clause
        lines.append(f"  limit {limit.name}: {value}, {limit.standing.value} ({where})")
    margin = "" if finding.margin is None else f", margin {finding.margin * 100:.1f} %"
    lines.append(f"  {finding.verdict.upper()}: {reason_text(finding, writer)}{margin}")
    if finding.remedy:
        lines.append(f"  do: {finding.remedy}")
    lines += [f"  write: {missing_text(one)}" for one in finding.missing]
    return "\n".join(lines) + "\n"


def _limit(value: float | str | bool, kind: str, writer: Writer) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, str) else writer.both(value, kind)
