"""Walls by checks at a glance: a mark for each wall and rule."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked, draw_mark
from compliance.documents.elements.section_titles import on_this_page, title
from compliance.documents.elements.theme import HEADING, Paper
from compliance.documents.figures.drawing_subjects import link_to_wall
from compliance.documents.page.faces import face_for, text_width
from compliance.documents.page.inked import Lettered, Ornament
from compliance.documents.page.line_breaking import Drawn, Words, shortened
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import Finding
from compliance.record import record
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.marks import Mark, worst

_WALL_COLUMN = 50.0
_NARROWEST, _WIDEST = 16.2, 26.0
_LONGEST_CLAUSE = 150.0
_KEPT_WHOLE = 12
"""A table of as few walls stands on one page."""
_TIGHT = (1.2, 1.4)
_CODE = theme.Style(HEADING.face, 8.0, 9.8)
_INTRODUCTION = (
    "A row for each wall, a column for each rule. The findings of a wall's openings and piers count with the wall: the "
    "cell shows the worst. An empty cell: the rule had nothing to judge there. A rule that applies to no wall has "
    "no column. The checklist by clause says what the codes stand for, and has the rules of materials and parts too."
)


def matrix(checked: Checked, sets: tuple[SetFindings, ...], paper: Paper) -> list[Any]:
    """As many tables as it takes to set the checks of walls side by side."""
    of_walls = [group for one in sets for group in one.rules if any(finding.wall for finding in group.judged)]
    story = on_this_page()
    lead = title("walls", "Walls by checks", _INTRODUCTION)
    lead.append(_legend())
    for groups in _shared_out(of_walls, _fitting(paper)):
        story.append(_table(checked, groups, lead, paper.body_width))
        lead = []
    if not of_walls:
        story.append(Sheet((Column(share=1),), (), lead=lead))
    return story


def _fitting(paper: Paper) -> int:
    """How many checks fit beside the wall column, at their narrowest."""
    return int((paper.body_width - _WALL_COLUMN) // _NARROWEST)


def _shared_out(groups: Sequence[RuleFindings], most: int) -> list[Sequence[RuleFindings]]:
    """Tables of nearly equal width, none wider than `most` columns."""
    count = -(-len(groups) // most)
    size = -(-len(groups) // count) if count else 0
    return [groups[start : start + size] for start in range(0, len(groups), size)] if size else []


def _table(checked: Checked, groups: Sequence[RuleFindings], lead: Sequence[Row], width: float) -> Sheet:
    cells = [_by_wall(group) for group in groups]
    rows: list[Row] = []
    for wall in checked.project.walls:
        marks = [_mark(found.get(wall)) for found in cells]
        mark = cell(wall, theme.CELL_BOLD, link=link_to_wall(checked, wall))
        whole = bool(rows) and len(checked.project.walls) <= _KEPT_WHOLE
        rows.append(Row((mark, *marks), joined=whole, air=_TIGHT))
    tall = min(_LONGEST_CLAUSE, 8 + max(text_width(one.first.clause, HEADING.face, HEADING.size) for one in groups))
    under = Words("Wall", HEADING)
    head = Row(
        (Cell((Drawn(tall, Ornament(_nothing)), under)), *(_heading(group, tall) for group in groups)), ruled=False
    )
    narrow = min(_WIDEST, (width - _WALL_COLUMN) / len(groups))
    columns = [Column(_WALL_COLUMN), *(Column(narrow) for _ in groups)]
    return Sheet(columns, rows, head=[head], lead=lead, grid=True, below=14)


def _nothing(canvas: Any, left: float, top: float, width: float) -> None:
    """Leaves the corner of the table empty."""


def _by_wall(group: RuleFindings) -> dict[str, list[Finding]]:
    found: dict[str, list[Finding]] = defaultdict(list)
    for finding in group.findings:
        if finding.wall:
            found[finding.wall].append(finding)
    return found


def _mark(findings: Sequence[Finding] | None) -> Cell:
    if not findings:
        return Cell(())
    return Cell((Marked(worst(findings), "", theme.CELL),))


@record
class _Upright:
    """A clause written upward, so that many columns fit."""

    text: str
    tall: float

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        face = face_for(self.text, HEADING.face)
        text = shortened(self.text, face, HEADING.size, self.tall - 4)
        canvas.saveState()
        canvas.translate(left + width / 2 + HEADING.size * 0.35, top - self.tall + 2)
        canvas.rotate(90)
        canvas.setFont(face, HEADING.size)
        canvas.setFillColor(HEADING.colour)
        canvas.drawString(0, 0, text)
        canvas.restoreState()


def _heading(group: RuleFindings, tall: float) -> Cell:
    clause = Drawn(tall, Lettered(_Upright(group.first.clause, tall).draw))
    return Cell((clause, _Code(group.code)), link=group.key)


@record
class _Code:
    """A short code in the middle of a narrow column; it may touch the column's edges."""

    text: str

    def lines(self, width: float) -> list[Any]:
        (line,) = Words(self.text, _CODE).lines(_WIDEST)
        return [line._replace(indent=(width - text_width(self.text, line.face, _CODE.size)) / 2)]


def _legend() -> Row:
    """Every mark with its word, in one line."""
    return full_row(Drawn(16.0, Lettered(_draw_legend)))


def _draw_legend(canvas: Any, left: float, top: float, width: float) -> None:
    x = left
    for mark in Mark:
        word = mark.value.word
        draw_mark(canvas, mark=mark, x=x, y=top - 10, size=6.6)
        canvas.setFillColor(theme.INK)
        canvas.setFont(theme.CELL.face, theme.CELL.size)
        canvas.drawString(x + 10, top - 9.6, f"{word} ")
        x += 10 + canvas.stringWidth(word, theme.CELL.face, theme.CELL.size) + 11
