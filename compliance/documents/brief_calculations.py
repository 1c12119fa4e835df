"""The calculations of a brief: of each finding the worked lines that lead to its result, as many as have room."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.documents import theme
from compliance.documents.figures import counted
from compliance.documents.rows import GAP, Cell, Column, Row, full_row
from compliance.documents.sheet import Sheet
from compliance.documents.theme import Style
from compliance.documents.wall_pages import figures_of
from compliance.documents.words import Part, Words, Worked
from compliance.documents.worked_lines import WorkedLine, worked_line
from compliance.findings import Finding
from compliance.units import Writer

_STYLE = Style(theme.CALCULATION.face, 7.0, 9.2)
_LEAST = 56.0  # points, below which a finding's lines tell nothing
_COMPARED = "check"
_ABOVE = 3.0
_LEFT_OUT = "come before these; earthwall explain prints them all"


def calculations(findings: Sequence[Finding], writer: Writer, room: float, width: float) -> list[Sheet]:
    """One sheet no taller than `room` points. The room is shared out among the findings, in their order; of each the
    last lines stand, which give its result. A line that two findings share stands once."""
    lead = [full_row(Words("Calculations so far", theme.BODY_BOLD), air=(2.0, 1.0))]
    columns = (Column(share=1), Column(share=1))
    left = room - Sheet(columns, (), lead=lead, below=6.0).wrap(width, 0)[1] - 6.0
    rows: list[Row] = []
    printed: set[WorkedLine] = set()
    shown = _each_once(findings, writer)[: max(int(left // _LEAST), 0)]
    for number, (finding, said) in enumerate(shown):
        made, height = _finding(finding, said, writer, left / (len(shown) - number), width, printed)
        rows += made
        left -= height
    return [Sheet(columns, rows, lead=lead, below=6.0)] if rows else []


def _each_once(findings: Sequence[Finding], writer: Writer) -> list[tuple[Finding, str]]:
    """Of parts that one rule finds alike the first, with what it says of all of them."""
    alike: dict[tuple[str, str, str], list[Finding]] = {}
    for one in findings:
        alike.setdefault((one.rule_set, one.rule, figures_of(one, writer)), []).append(one)
    return [
        (same[0], f"{same[0].title}, {', '.join(one.subject for one in same)}: {figures}")
        for (_, _, figures), same in alike.items()
    ]


def _finding(
    finding: Finding, said: str, writer: Writer, room: float, width: float, printed: set[WorkedLine]
) -> tuple[list[Row], float]:
    """Its heading, then its last lines in two columns, and how tall they are. What the heading compares is left out."""
    steps = [step for step in finding.steps if step.says != _COMPARED]
    lines = [line for line in dict.fromkeys(worked_line(step, writer) for step in steps) if line not in printed]
    heading: list[Part] = [Words(said, theme.CELL_BOLD)]
    across = (width - 2 * GAP) / 2
    tall = _tall(heading, width) + theme.CELL_SMALL.leading + _ABOVE
    kept: list[Part] = []
    for count, line in enumerate(reversed(lines), start=1):
        more: list[Part] = [Worked(line.text, _STYLE), *kept]
        if tall + _columns(more, across)[2] > room:
            heading.append(Words(f"{counted(len(lines) - count + 1, 'line')} {_LEFT_OUT}", theme.CELL_SMALL))
            break
        kept = more
        printed.add(line)
    if not lines:
        heading.append(Words("By the lines above.", theme.CELL_SMALL))
    one, other, height = _columns(kept, across)
    rows = [Row((Cell(tuple(heading), span=2),), ruled=False, air=(_ABOVE, 0.0))]
    rows += [Row((Cell(tuple(one)), Cell(tuple(other))), joined=True, ruled=False, air=(0.0, 0.0))] if kept else []
    return rows, _tall(heading, width) + _ABOVE + height


def _columns(parts: Sequence[Part], width: float) -> tuple[list[Part], list[Part], float]:
    """The parts in two columns, read downwards, the left one the taller; and how tall they are."""
    heights = [_tall([part], width) for part in parts]
    half, taken, count = sum(heights) / 2, 0.0, 0
    while count < len(parts) and taken < half:
        taken += heights[count]
        count += 1
    return list(parts[:count]), list(parts[count:]), max(taken, sum(heights[count:]))


def _tall(parts: Sequence[Part], width: float) -> float:
    return sum(line.height for part in parts for line in part.lines(width))
