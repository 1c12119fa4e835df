"""Tables of limits on the worksheet: each cell with what is known of it and room for what is read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from compliance.checked import Checked
from compliance.documents.counter.worksheet_boxes import Box
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import LimitUsed
from compliance.report.by_rule import RuleFindings
from compliance.report.limits.limit_list import ListedLimit
from compliance.report.limits.table_words import corner_words, entry_words, table_of
from compliance.rules.limits.filled_limit import field_name
from compliance.rules.tables import Table
from compliance.units import Writer

_LABELS = 84.0
_LOW = 16.0


def table_sheets(
    checked: Checked, listed: Sequence[ListedLimit], codes: Mapping[tuple[str, str], RuleFindings], writer: Writer
) -> Iterator[Sheet]:
    """The tables relied on, in the order of the list; nothing where there is none."""
    lead = part("tables", "Tables", "Rows and columns count from 1 in the command, the first row being the upper one.")
    for one in listed:
        table = table_of(checked.rule_sets, one.limit)
        if table is None:
            continue
        code = codes[one.limit.rule_set, one.limit.rule].code
        name = f"{code}  ·  {table.read_in or table.clause or one.limit.clause}  ·  {one.title}"
        phrases = [table.standing.value, table.source, table.note]
        below = Words("; ".join(text for text in phrases if text), theme.SOURCE)
        row = full_row(Words(name, theme.BODY_BOLD), below, air=(4.0, 3.0))
        yield _sheet(table, [*lead, row], one.limit, writer)
        lead = []


def _sheet(table: Table, lead: list[Row], limit: LimitUsed, writer: Writer) -> Sheet:
    titles = (
        [entry_words(table.columns, entry, writer) for entry in table.columns.entries] if table.columns else ["value"]
    )
    rows = []
    for i, (entry, values) in enumerate(zip(table.rows.entries, table.cells, strict=True), start=1):
        cells = [
            _cell(value, table=table, at=(i, j), limit=limit, writer=writer) for j, value in enumerate(values, start=1)
        ]
        rows.append(Row((cell(f"{i}:  {entry_words(table.rows, entry, writer)}", theme.CELL_BOLD), *cells)))
    numbered = [f"{j}:  {title}" for j, title in enumerate(titles, start=1)]
    columns = [Column(_LABELS), *(Column(share=1) for _ in titles)]
    return Sheet(columns, rows, head=[head_row(corner_words(table), *numbered)], lead=lead, grid=True, below=12)


def _cell(value: float | None, table: Table, at: tuple[int, int], limit: LimitUsed, writer: Writer) -> Cell:
    phrases: list[Part] = [] if value is None else [Words(writer.both(value, table.kind), theme.CELL_SMALL)]
    row, column = at
    name = field_name(limit.rule_set, limit.rule, limit.name, f"{row},{column}")
    return Cell((*phrases, Box(name, f"{table.name.replace('_', ' ')}: row {row}, column {column}", _LOW)))
