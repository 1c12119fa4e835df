"""What a check says alike of many subjects, once for all: values to write, limits to read, unanswered questions."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from compliance.findings import Finding, Outcome
from compliance.output.terminal.hanging_indent import headed, heading, wrapped
from compliance.report.words.missing_words import missing_texts, reason_text, without_own_marks
from compliance.units import Writer

Groups = list[list[Finding]]


def is_open(finding: Finding) -> bool:
    return finding.outcome is Outcome.CONFIRM


def is_unanswered(finding: Finding) -> bool:
    """Whether only a person can answer."""
    return finding.outcome is Outcome.MISSING and finding.kind == "attest"


def lacking_alike(findings: Iterable[Finding]) -> Groups:
    """Findings of one rule that lack the same fields of several subjects, each of its own."""
    lacking = (one for one in findings if one.outcome is Outcome.MISSING and one.missing and not is_unanswered(one))
    return [group for group in _gathered(lacking, without_own_marks) if len(group) > 1]


def lacking_lines(groups: Groups, width: int) -> list[str]:
    """What to write, the fields of the first subject named and the others told."""
    lines = ["", *heading("Values to write, the same for several", width)] if groups else []
    for group in groups:
        first, *others = group
        standing = f", limit {first.standing.value}" if first.standing else ""
        lines += headed(f"MISSING  {first.title}: {first.clause} ({first.rule}{standing})", width)
        likewise = f"; likewise for {', '.join(one.subject for one in others)}" if _own(first) else ""
        lines += wrapped(f"write: {'; '.join(missing_texts(first))}{likewise}", width)
        if not likewise:
            lines += wrapped(f"about: {', '.join(one.subject for one in group)}", width)
    return lines


def open_lines(
    findings: Iterable[Finding], written: Callable[[Finding, Writer], str], writer: Writer, width: int
) -> list[str]:
    """Each rule that is open, or whose limit is, with the subjects that wait for it and their values."""
    groups = _by_rule(one for one in findings if is_open(one))
    lines = ["", *heading("Limits and rules to read in the adopted copy", width)] if groups else []
    for group in groups:
        first = group[0]
        lines += headed(f"CONFIRM  {first.title}: {first.clause} ({first.rule_set}, {first.rule})", width)
        lines += wrapped(reason_text(first, writer), width)
        values = [f"{one.subject} {written(one, writer)}".strip() for one in group]
        lines += wrapped(f"affects: {', '.join(values)}", width)
    return lines


def unanswered_lines(findings: Iterable[Finding], writer: Writer, width: int) -> list[str]:
    """Each question only a person can answer, with the subjects it is asked of."""
    groups = _by_rule(one for one in findings if is_unanswered(one))
    lines = (
        ["", *heading("Unanswered questions: write answers under attestations: in project.yaml", width)]
        if groups
        else []
    )
    for group in groups:
        first = group[0]
        lines += headed(f"MISSING  {first.title}: {first.clause} (rule: {first.rule})", width)
        lines += wrapped(reason_text(first, writer), width)
        lines += wrapped(f"about: {', '.join(one.subject for one in group)}", width)
    return lines


def _by_rule(findings: Iterable[Finding]) -> Groups:
    return _gathered(findings, lambda one: ())


def _gathered(findings: Iterable[Finding], by: Callable[[Finding], Sequence[object]]) -> Groups:
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        groups.setdefault((finding.rule_set, finding.rule, *by(finding)), []).append(finding)
    return list(groups.values())


def _own(finding: Finding) -> bool:
    """Whether what is lacking belongs to the subject itself, so that others lack another field."""
    return without_own_marks(finding) != finding.missing
