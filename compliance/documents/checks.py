"""Every finding in full, rule by rule: what the rule says, the calculation, value against limit, what to do."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from compliance.checked import Checked
from compliance.documents import theme
from compliance.documents.by_rule import RuleFindings, SetFindings
from compliance.documents.figures import counted, percent, quoted, relation, value_and_limit
from compliance.documents.marks import Marked, mark_of
from compliance.documents.read_first import subjects
from compliance.documents.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.sections import on_new_page, part, title
from compliance.documents.sheet import Sheet
from compliance.documents.words import Part, Words, Worked
from compliance.findings import Finding, LimitUsed, Outcome
from compliance.units import Writer

_INTRODUCTION = (
    "Rule by rule, in the order of the rule sets. Under each subject stands the calculation that leads to its value. "
    "Margin is the share of the limit that is left: above zero inside, below zero outside."
)
_COLUMNS = (Column(80), Column(76), Column(share=1), Column(50), Column(170))


def checks(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    writer = Writer(checked.project.project.units)
    story = on_new_page()
    lead = title("checks", "Checks in full", _INTRODUCTION)
    for one in sets:
        lead += part(f"checks-{one.letter}", one.heading)
        for group in one.rules:
            if group.judged:
                story.append(_judged(group, writer, lead))
                lead = []
        story += _apart(one, lead)
        lead = []
    return story


def _judged(group: RuleFindings, writer: Writer, lead: list[Row]) -> Sheet:
    rows = [row for finding in group.judged for row in _finding(finding, writer)]
    head = head_row("Subject", "Result", "Limit", "Margin", "Verdict and standing of the limit", right=(3,))
    carried = full_row(Words(f"{group.heading}, continued", theme.CELL_BOLD, after=2.0))
    return Sheet(_COLUMNS, rows, head=[head], lead=[*lead, *_rule(group, writer)], carried=[carried], below=14)


def _rule(group: RuleFindings, writer: Writer) -> list[Row]:
    first = group.first
    heading = Words(group.heading, theme.RULE_TITLE, after=1.0)
    parts: list[Part] = [heading, Words(first.say, theme.SMALL)]
    parts += [Words(_limit(limit, writer), theme.SOURCE) for limit in group.limits]
    if not group.limits and first.source:
        parts.append(Words(f"Source: {first.source}", theme.SOURCE))
    return [full_row(*parts, anchor=Anchor(group.key, f"{group.code} {first.title}", 2), air=(4.0, 3.0))]


def _limit(limit: LimitUsed, writer: Writer) -> str:
    words = f"{limit.name.replace('_', ' ')}: {quoted(limit.value, writer)}, {limit.standing.value}"
    return f"{words}. {limit.source}" if limit.source else words


def _finding(finding: Finding, writer: Writer) -> Iterable[Row]:
    """A line of figures, then the calculation and what is to be said, kept with it."""
    value, limit = value_and_limit(finding, writer)
    signed = f"{relation(finding)} {limit}".strip() if finding.limit else limit
    below = _below(finding, writer)
    yield Row(
        (
            cell(subjects([finding]), theme.CELL_BOLD),
            cell(value),
            cell(signed),
            cell(percent(finding.margin), theme.NUMBER),
            Cell((Marked(mark_of(finding), _verdict(finding), theme.CELL),)),
        ),
        ruled=not below,
    )
    if below:
        yield Row((Cell(tuple(below), span=len(_COLUMNS)),), joined=True, air=(0.0, 4.0))


def _verdict(finding: Finding) -> str:
    return f"{finding.verdict} ({finding.standing.value})" if finding.standing else finding.verdict


def _below(finding: Finding, writer: Writer) -> list[Part]:
    """Where a value meets its limit the figures say it all; otherwise the reason stands in words too."""
    plain = finding.outcome is Outcome.MEETS and finding.value is not None and finding.limit is not None
    parts: list[Part] = []
    if finding.reason and not plain:
        parts.append(Words(finding.reason[:1].upper() + finding.reason[1:], theme.SMALL))
    for step in finding.steps:
        source = f"  [{step.source}]" if step.source else ""
        parts.append(Worked(step.line(writer) + source, theme.CALCULATION))
    if finding.missing:
        parts.append(Words(f"To add: {'; '.join(finding.missing)}", theme.SMALL_ITALIC))
    if finding.remedy:
        parts.append(Words(f"Remedy: {finding.remedy}", theme.SMALL_ITALIC))
    return parts


def _apart(one: SetFindings, lead: list[Row]) -> list[Any]:
    """Rules that do not apply to a subject, gathered by rule and reason."""
    rows = []
    for group in one.rules:
        alike: dict[str, list[Finding]] = {}
        for finding in group.apart:
            alike.setdefault(finding.reason, []).append(finding)
        for index, (reason, findings) in enumerate(alike.items()):
            anchor = None if group.judged or index else Anchor(group.key)
            code = Cell((Words(group.code, theme.CELL_BOLD), Words(group.first.clause, theme.CELL_SMALL)))
            rows.append(Row((code, cell(group.first.title), cell(subjects(findings)), cell(reason)), anchor=anchor))
    if not rows:
        return [Sheet(_COLUMNS, (), lead=lead)] if lead else []
    count = counted(sum(len(group.apart) for group in one.rules), "finding")
    sentence = f"{count} of rules that do not apply to the subject, or wait for the work on site."
    lead = lead + part(f"apart-{one.letter}", f"{one.letter}  ·  Rules that do not apply here", sentence)
    columns = (Column(64), Column(share=2), Column(share=2), Column(share=3))
    return [Sheet(columns, rows, head=[head_row("Code", "Check", "Subjects", "Reason")], lead=lead, below=14)]
