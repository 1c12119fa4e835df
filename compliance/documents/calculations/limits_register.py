"""Every limit the findings rest on: value in both systems, standing, source, and room for the official's initials."""

from __future__ import annotations

from typing import Any

from compliance.checked import Checked
from compliance.documents.calculations.amendment_list import amendments
from compliance.documents.calculations.limit_tables import limit_tables
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, part, running_text, title
from compliance.documents.page.inked import Ornament
from compliance.documents.page.line_breaking import Drawn, Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.facts.specimens.statistics import STATISTICS
from compliance.findings import BINDING, LimitUsed
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.limits.limit_history import history_lines
from compliance.report.revisions.older_words import RuleTitles, titles_of
from compliance.report.value_words import quoted
from compliance.units import Writer

_INTRODUCTION = (
    "Every limit that a finding rests on, once, with its standing (explained where the findings are counted). "
    "The official, or whoever holds the adopted copy, initials each limit that is read there and agrees; those of "
    "guides and practice stand in no adopted copy and have no box."
)
_BOX = (34.0, 15.0)


def register(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    writer = Writer(checked.project.project.units)
    story, titles = on_this_page(), titles_of(checked.rule_sets)
    lead = title("limits", "Limits relied on", _INTRODUCTION)
    for one in sets:
        box = one.rule_set.status in BINDING
        rows = [row for group in one.rules for row in _rows(group, writer, box, titles)]
        if rows:
            story.append(_sheet(rows, lead + part(f"limits-{one.letter}", one.heading)))
            lead = []
    if lead:
        story.append(running_text(lead))
    return [*story, *amendments(checked, writer), *limit_tables(sets, writer)]


def _sheet(rows: list[Row], lead: list[Row]) -> Sheet:
    columns = (Column(28), Column(share=4), Column(94), Column(48), Column(share=5), Column(42))
    head = head_row("Code", "Clause and limit", "Value", "Standing", "Source", "Initials")
    return Sheet(columns, rows, head=[head], lead=lead, below=12)


def _rows(group: RuleFindings, writer: Writer, box: bool, titles: RuleTitles) -> list[Row]:
    return [_row(group, titles.of_limit(limit), writer, box) for limit in group.limits]


def _row(group: RuleFindings, limit: LimitUsed, writer: Writer, box: bool) -> Row:
    value: list[Part] = [Words(quoted(limit.value, writer), theme.CELL_BOLD)]
    if limit.value and (statistic := STATISTICS.get(str(limit.value.value))):
        value.append(Words(statistic.meaning, theme.CELL_SMALL))
    source: list[Part] = [Words(limit.source or "no source named", theme.CELL)]
    source += [Words(text, theme.CELL_SMALL) for text in (limit.note, _read_in(limit)) if text]
    source += [Words(line, theme.CELL_SMALL) for line in history_lines(limit, writer)]
    of_rule = f"{limit.clause}  ·  {group.first.title}"
    name = (Words(of_rule, theme.CELL), Words(limit.name.replace("_", " "), theme.CELL_SMALL))
    return Row(
        (
            cell(group.code, theme.CELL_BOLD, link=group.key),
            Cell(name),
            Cell(tuple(value)),
            cell(limit.standing.value),
            Cell(tuple(source)),
            Cell((Drawn(_BOX[1] + 1, Ornament(_box)),) if box else ()),
        )
    )


def _read_in(limit: LimitUsed) -> str:
    return f"to be read in {limit.read_in}" if limit.read_in else ""


def _box(canvas: Any, left: float, top: float, width: float) -> None:
    """An empty box for initials."""
    canvas.setStrokeColor(theme.UMBER)
    canvas.setLineWidth(0.6)
    canvas.rect(left, top - _BOX[1], _BOX[0], _BOX[1], stroke=1, fill=0)
