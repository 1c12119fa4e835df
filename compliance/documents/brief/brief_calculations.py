"""The calculations of a brief: of each finding the worked lines that lead to its result, as many as have room."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.documents.elements import theme
from compliance.documents.elements.theme import Style
from compliance.documents.page.line_breaking import Part, Words, Worked
from compliance.documents.page.rows import Cell, Column, Row, full_row
from compliance.documents.page.sheet import Sheet
from compliance.facts.common.coefficients import is_taken
from compliance.findings import Finding, Outcome
from compliance.report.calculations.calculation_lines import WorkedLine, worked_line
from compliance.report.result_words import format_result
from compliance.report.value_words import counted
from compliance.units import Writer

_STYLE = Style(theme.CALCULATION.face, 7.0, 9.2)
_LEAST = 30.0  # points, below which a finding's lines tell nothing
_COMPARED, _LOOKED_AT = "check", ("check", "together", "either")
_MOST_BESIDE = 8
_ABOVE = 3.0
_TITLE = "Calculations so far"
_EXPLAINED = "Of each the last lines. All of them stand in the submittal, and earthwall explain prints them."


def calculations(
    findings: Sequence[Finding], writer: Writer, room: float, width: float, title: str = _TITLE
) -> list[Sheet]:
    """One sheet no taller than `room` points. The room is shared out among the findings, in their order; of each the
    last lines stand, which give its result. A line that two findings share stands once."""
    columns = (Column(share=1),)
    each = _distinct_findings(findings, writer)
    left = room - Sheet(columns, (), lead=_lead(title, len(each)), below=6.0).wrap(width, 0)[1] - 6.0
    rows: list[Row] = []
    printed: set[WorkedLine] = set()
    shown = each[: max(int(left // _LEAST), 0)]
    lead = _lead(title, len(each) - len(shown))
    for number, (finding, wording) in enumerate(shown):
        made, height = _finding(
            finding, wording=wording, writer=writer, room=left / (len(shown) - number), width=width, printed=printed
        )
        rows += made
        left -= height
    return [Sheet(columns, rows, lead=lead, below=6.0)] if rows else []


def _lead(title: str, without_room: int) -> list[Row]:
    """The title, and where all is that has no room here."""
    wording = f"{_EXPLAINED} For {counted(without_room, 'calculation')} there is no room here."
    words = wording if without_room else _EXPLAINED
    return [full_row(Words(title, theme.BODY_BOLD), Words(words, theme.CELL_SMALL), air=(2.0, 1.0))]


def nearest(findings: Sequence[Finding], wall: str) -> list[Finding]:
    """What else was calculated of a wall with coefficients of the screening, and met: the least margin first."""
    held = [one for one in findings if one.wall == wall and one.outcome is Outcome.MEETS and one.margin is not None]
    worked = [one for one in held if any(is_taken(step) for step in one.steps)]
    return sorted(worked, key=lambda one: one.margin or 0.0)[:_MOST_BESIDE]


def _distinct_findings(findings: Sequence[Finding], writer: Writer) -> list[tuple[Finding, str]]:
    """Of parts that one rule finds alike the first, with what it says of all of them. Nothing was worked out where a
    rule only looks at what is described."""
    alike: dict[tuple[str, str, str], list[Finding]] = {}
    for one in (one for one in findings if any(step.formula and step.says not in _LOOKED_AT for step in one.steps)):
        alike.setdefault((one.rule_set, one.rule, format_result(one, writer)), []).append(one)
    return [
        (same[0], f"{same[0].title}, {', '.join(one.subject for one in same)}: {figures}")
        for (_, _, figures), same in alike.items()
    ]


def _finding(
    finding: Finding, wording: str, writer: Writer, room: float, width: float, printed: set[WorkedLine]
) -> tuple[list[Row], float]:
    """Its heading, then its last lines, and how tall they are. What the heading compares is left out, as
    are coefficients, which stand under what is taken for granted."""
    steps = [step for step in finding.steps if step.says != _COMPARED and not is_taken(step)]
    lines = [line for line in dict.fromkeys(worked_line(step, writer) for step in steps) if line not in printed]
    left_out = f"; {counted(len(lines), 'line')} more"
    tall = _tall([Words(f"{wording}{left_out}", theme.CELL_BOLD)], width) + _ABOVE
    kept: list[Part] = []
    for line in reversed(lines):
        more: list[Part] = [Worked(line.text, _STYLE), *kept]
        if tall + _tall(more, width) > room:
            left_out = f"; {counted(len(lines) - len(kept), 'line')} more"
            break
        kept = more
        printed.add(line)
    else:
        left_out = "" if lines else "; by the lines above"
    parts = (Words(f"{wording}{left_out}", theme.CELL_BOLD), *kept)
    return [Row((Cell(parts),), ruled=False, air=(_ABOVE, 0.0))], _tall(parts, width) + _ABOVE


def _tall(parts: Sequence[Part], width: float) -> float:
    return sum(line.height for part in parts for line in part.lines(width))
