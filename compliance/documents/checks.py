"""Every finding in full, rule by rule: what the rule says, the calculation, value against limit, what to do."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from compliance.checked import Checked
from compliance.documents import theme
from compliance.documents.alike import Alike, alike, reason_of, subjects, to_add
from compliance.documents.by_rule import RuleFindings, SetFindings
from compliance.documents.figures import NOTHING, counted, quoted
from compliance.documents.marks import Marked
from compliance.documents.read_first import code_and_clause
from compliance.documents.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.sections import on_new_page, part, title
from compliance.documents.sheet import Sheet
from compliance.documents.words import Part, Words
from compliance.documents.worked_lines import EXPLAINED, Ledger
from compliance.findings import Finding, LimitUsed, Outcome, Standing
from compliance.units import Writer

_INTRODUCTION = (
    "Rule by rule, in the order of the rule sets. Under each subject stands the calculation that leads to its value. "
    "Margin is the share of the limit that is left: above zero inside, below zero outside."
)
_COLUMNS = (Column(80), Column(76), Column(share=1), Column(50), Column(170))
_HEAD = head_row("Subject", "Result", "Limit", "Margin", "Verdict and standing of the limit", right=(3,))
_COLUMNS_OF_WORDS = (Column(share=1), Column(170))
_HEAD_OF_WORDS = head_row("Subject", "Verdict and standing of the rule")


def checks(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    writer = Writer(checked.project.project.units)
    story = on_new_page()
    lead = title("checks", "Calculations", _INTRODUCTION, EXPLAINED)
    found = {group.code: alike(group.judged, writer) for one in sets for group in one.rules if group.judged}
    ledger = Ledger(same.lines for of_rule in found.values() for same in of_rule)
    for one in sets:
        lead += part(f"checks-{one.letter}", one.heading)
        for group in one.rules:
            if group.judged:
                story.append(_judged(group, found[group.code], ledger, writer, lead))
                lead = []
        story += _apart(one, lead)
        lead = []
    return story


def _judged(group: RuleFindings, found: list[Alike], ledger: Ledger, writer: Writer, lead: list[Row]) -> Sheet:
    reasons = {_reason(one) for one in found}
    shared = reasons.pop() if len(found) > 1 and len(reasons) == 1 and not found[0].first.missing else ""
    compared = any(one.figures[1:4] != (NOTHING,) * 3 for one in found)
    columns, head = (_COLUMNS, _HEAD) if compared else (_COLUMNS_OF_WORDS, _HEAD_OF_WORDS)
    rows = [row for one in found for row in _rows(one, ledger, shared, compared)]
    carried = full_row(Words(f"{group.heading}, continued", theme.CELL_BOLD, after=2.0))
    lead = [*lead, *_rule(group, shared, writer)]
    return Sheet(columns, rows, head=[head], lead=lead, carried=[carried], below=14)


def _rule(group: RuleFindings, shared: str, writer: Writer) -> list[Row]:
    first = group.first
    parts: list[Part] = [Words(group.heading, theme.RULE_TITLE, after=1.0), Words(first.say, theme.SMALL)]
    if shared:
        parts.append(Words(shared, theme.SMALL))
    parts += [Words(_limit(limit, writer), theme.SOURCE) for limit in group.limits]
    if not group.limits and first.source:
        parts.append(Words(f"Source: {first.source}", theme.SOURCE))
    return [full_row(*parts, anchor=Anchor(group.key, f"{group.code} {first.title}", 2), air=(4.0, 3.0))]


def _limit(limit: LimitUsed, writer: Writer) -> str:
    known = limit.standing is not Standing.OPEN
    value = f"{quoted(limit.value, writer)}, {limit.standing.value}" if known else "open"
    words = f"{limit.name.replace('_', ' ')}: {value}"
    return f"{words}. {limit.source}" if limit.source else words


def _rows(one: Alike, ledger: Ledger, shared: str, compared: bool) -> Iterable[Row]:
    """A line of figures, then what is to be said and the calculation, kept with it."""
    figures = one.figures
    between = (cell(figures.value), cell(figures.limit), cell(figures.margin, theme.NUMBER)) if compared else ()
    subject = cell(subjects(one.findings), theme.CELL_BOLD)
    verdict = Cell((Marked(figures.mark, figures.verdict, theme.CELL),))
    below = _below(one, ledger, shared)
    yield Row((subject, *between, verdict), ruled=not below)
    if below:
        yield Row((Cell(tuple(below), span=2 + len(between)),), joined=True, air=(0.0, 4.0))


def _reason(one: Alike) -> str:
    """The reason in words; none where figures or worked lines tell why the limit is met."""
    first = one.first
    told = first.outcome is Outcome.MEETS and (one.lines or (first.value is not None and first.limit is not None))
    return "" if told else reason_of(one.findings)


def _below(one: Alike, ledger: Ledger, shared: str) -> list[Part]:
    reason = "" if shared else _reason(one)
    parts: list[Part] = [Words(reason, theme.SMALL)] if reason else []
    parts += ledger.parts(one.lines)
    if one.first.missing and to_add(one.findings) not in reason:
        parts.append(Words(f"To add: {to_add(one.findings)}", theme.SMALL_ITALIC))
    if one.first.remedy:
        parts.append(Words(f"Remedy: {one.first.remedy}", theme.SMALL_ITALIC))
    return parts


def _apart(one: SetFindings, lead: list[Row]) -> list[Any]:
    """Rules that do not apply to a subject, gathered by rule and reason."""
    rows = []
    for group in one.rules:
        same: dict[str, list[Finding]] = {}
        for finding in group.apart:
            same.setdefault(finding.reason, []).append(finding)
        for index, (reason, findings) in enumerate(same.items()):
            anchor = None if group.judged or index else Anchor(group.key)
            code = Cell(code_and_clause(group))
            rows.append(Row((code, cell(group.first.title), cell(subjects(findings)), cell(reason)), anchor=anchor))
    if not rows:
        return [Sheet(_COLUMNS, (), lead=lead)] if lead else []
    count = counted(sum(len(group.apart) for group in one.rules), "finding")
    sentence = f"{count} of rules that do not apply to the subject, or wait for the work on site."
    lead = lead + part(f"apart-{one.letter}", f"{one.letter}  ·  Rules that do not apply here", sentence)
    columns = (Column(64), Column(share=2), Column(share=2), Column(share=3))
    return [Sheet(columns, rows, head=[head_row("Code", "Check", "Subjects", "Reason")], lead=lead, below=14)]
