"""The tables that findings rest on, printed with every cell, so that they can be held against the adopted copy."""

from __future__ import annotations

from typing import Any

from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.report.by_rule import SetFindings
from compliance.report.limits.table_words import corner_words, entry_words
from compliance.rules.rule_set import Rule
from compliance.rules.tables import Table
from compliance.units import Writer

_MOST_ACROSS = 9
_BETWEEN = {"next-worse": "between two entries the worse one stands", "linear": "between two entries a straight line"}


def limit_tables(sets: tuple[SetFindings, ...], writer: Writer) -> list[Any]:
    """One sheet for each table of a rule that was judged; none where no rule has a table."""
    story: list[Any] = []
    for one in sets:
        rules = {rule.id: rule for rule in one.rule_set.rules}
        for group in one.rules:
            if not any(finding.limits for finding in group.findings):
                continue
            for table in rules[group.rule].tables.values():
                lead = [] if story else part("tables", "Tables relied on")
                story.append(_sheet([*lead, _title(group.code, rules[group.rule], table)], table, writer))
    return story


def _title(code: str, rule: Rule, table: Table) -> Row:
    name = f"{code}  ·  {table.clause or rule.clause}  ·  {rule.title}: {table.name.replace('_', ' ')}"
    read_in = f"to be read in {table.read_in}" if table.read_in else ""
    phrases = [table.standing.value, table.source or rule.source, read_in, _BETWEEN[table.between], table.note]
    if table.wholly_open:
        phrases = [f"by {corner_words(table)}: every entry is open", read_in, table.note]
    below = Words("; ".join(text for text in phrases if text), theme.SOURCE)
    return full_row(Words(name, theme.BODY_BOLD), below, air=(4.0, 3.0))


def _sheet(lead: list[Row], table: Table, writer: Writer) -> Sheet:
    """Cells as in the code; a table of one short column lies on its side; of a wholly open one only the title."""
    if table.wholly_open:
        return Sheet((Column(share=1),), (), lead=lead, below=4)
    rows = [entry_words(table.rows, entry, writer, both=True) for entry in table.rows.entries]
    cells = [[_value(one, table, writer) for one in line] for line in table.cells]
    if table.columns:
        titles = [entry_words(table.columns, entry, writer, both=True) for entry in table.columns.entries]
    elif len(rows) <= _MOST_ACROSS:
        titles, rows, cells = rows, ["Value"], [[line[0] for line in cells]]
    else:
        titles = ["Value"]
    body = [
        Row((cell(name, theme.CELL_BOLD), *(cell(text) for text in line)))
        for name, line in zip(rows, cells, strict=True)
    ]
    widths = [Column(natural=True)] * (1 + len(titles))
    return Sheet(widths, body, head=[head_row(corner_words(table), *titles)], lead=lead, grid=True)


def _value(value: float | None, table: Table, writer: Writer) -> str:
    return "open" if value is None else writer.both(value, table.kind)
