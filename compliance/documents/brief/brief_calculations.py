"""The calculations of a brief: of each finding every worked line, each printed once for a wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.page.line_breaking import Part, Words, Worked
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.facts.common.coefficients import is_taken
from compliance.findings import Finding, Outcome
from compliance.record import record
from compliance.report.calculations.calculation_lines import EXPLAINED, Ledger, WorkedLine, worked_line
from compliance.report.marks import mark_of
from compliance.report.result_words import format_result
from compliance.report.value_words import percent, relation, value_and_limit
from compliance.units import Writer

_COMPARED, _LOOKED_AT = "check", ("check", "together", "either")
_TITLE = "Calculations in full of what is outside its limit"
_BESIDE = "Also calculated of this wall, within its limit"
_IN_FULL = "The least margin first. Their calculations stand in the calculations of the submittal, by the same titles."
_FROM_ABOVE = "By the lines above."


@record
class _Worked:
    """A finding with its heading and all lines that lead to its value and its limit, coefficients left out: those
    stand in a table of their own."""

    finding: Finding
    heading: str
    lines: tuple[WorkedLine, ...]


def calculations(findings: Sequence[Finding], writer: Writer) -> Sheet:
    """Every finding in full, in the order given; none where nothing was worked out."""
    found = list(_worked(findings, writer))
    ledger = Ledger([one.lines for one in found])
    rows = [_row(one, ledger) for one in found]
    lead = [full_row(Words(_TITLE, theme.SUBSECTION), Words(EXPLAINED, theme.SMALL), air=(2.0, 1.0))]
    return Sheet((Column(share=1),), rows, lead=lead, below=8.0)


def results(findings: Sequence[Finding], writer: Writer) -> Iterator[Sheet]:
    """What was calculated and met, a row for each; nothing where there is none."""
    rows = []
    for one in findings:
        value, limit = value_and_limit(one, writer)
        texts = (one.subject, one.title, value, f"{relation(one)} {limit}")
        rows.append(Row((*map(cell, texts), cell(percent(one.margin), theme.NUMBER)), air=(0.8, 1.0)))
    if rows:
        lead = [full_row(Words(_BESIDE, theme.SUBSECTION), Words(_IN_FULL, theme.SMALL), air=(2.0, 1.0))]
        head = head_row("Of", "Check", "Result", "Limit", "Margin", right=(4,))
        columns = (Column(52), Column(share=4), Column(share=2), Column(share=3), Column(48))
        yield Sheet(columns, rows, head=[head], lead=lead, below=8.0)


def calculated_of(findings: Sequence[Finding], wall: str) -> list[Finding]:
    """What was calculated of a wall with coefficients of the screening and met: the least margin first."""
    held = [one for one in findings if one.wall == wall and one.outcome is Outcome.MEETS and one.margin is not None]
    worked = [one for one in held if any(is_taken(step) for step in one.steps)]
    return sorted(worked, key=lambda one: one.margin or 0.0)


def _worked(findings: Sequence[Finding], writer: Writer) -> Iterator[_Worked]:
    """Of parts that one rule finds alike the first, with what it says of all of them. Nothing was worked out where a
    rule only looks at what is described."""
    alike: dict[tuple[str, str, str], list[Finding]] = {}
    for one in (one for one in findings if any(step.formula and step.says not in _LOOKED_AT for step in one.steps)):
        alike.setdefault((one.rule_set, one.rule, format_result(one, writer)), []).append(one)
    for (_, _, figures), same in alike.items():
        first = same[0]
        steps = [step for step in first.steps if step.says != _COMPARED and not is_taken(step)]
        lines = tuple(dict.fromkeys(worked_line(step, writer) for step in steps))
        yield _Worked(first, f"{first.title}, {', '.join(one.subject for one in same)}: {figures}", lines)


def _row(one: _Worked, ledger: Ledger) -> Row:
    lines = ledger.lines(one.lines)
    parts: list[Part] = [Marked(mark_of(one.finding), one.heading, theme.CELL_BOLD)]
    parts += [
        Worked(line.text, theme.CALCULATION) if line.calculation else Words(line.text, theme.CALCULATION)
        for line in lines
    ]
    if not lines:
        parts.append(Words(_FROM_ABOVE, theme.CALCULATION))
    return Row((Cell(tuple(parts)),), air=(3.0, 3.0))
