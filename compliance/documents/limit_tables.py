"""The tables that findings rest on, printed with every cell, so that they can be held against the adopted copy."""

from __future__ import annotations

from typing import Any

from compliance.documents import theme
from compliance.documents.by_rule import SetFindings
from compliance.documents.rows import Column, Row, cell, full_row, head_row
from compliance.documents.sections import part
from compliance.documents.sheet import Sheet
from compliance.documents.words import Words
from compliance.facts.catalogue import FACTS
from compliance.rules.rule_set import Rule
from compliance.rules.tables import Axis, Entry, Table
from compliance.units import KINDS, Writer

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
                story.append(_sheet(group.code, rules[group.rule], table, writer, lead))
    return story


def _sheet(code: str, rule: Rule, table: Table, writer: Writer, lead: list[Row]) -> Sheet:
    name = f"{code}  ·  {table.clause or rule.clause}  ·  {rule.title}: {table.name.replace('_', ' ')}"
    said = [f"{table.standing.value}", table.source or rule.source, _BETWEEN[table.between], table.note]
    below = Words("; ".join(text for text in said if text), theme.SOURCE)
    lead = [*lead, full_row(Words(name, theme.BODY_BOLD), below, air=(4.0, 3.0))]
    columns = [_entry(table.columns, entry, writer) for entry in table.columns.entries] if table.columns else ["Value"]
    corner = _label(table.rows.fact)
    if table.columns:
        corner = f"{corner}, by {_label(table.columns.fact)}"
    rows = [
        Row(
            (
                cell(_entry(table.rows, entry, writer), theme.CELL_BOLD),
                *(cell(_value(one, table, writer)) for one in line),
            )
        )
        for entry, line in zip(table.rows.entries, table.cells, strict=True)
    ]
    widths = [Column(natural=True)] * (1 + len(columns))
    return Sheet(widths, rows, head=[head_row(corner, *columns)], lead=lead, grid=True, below=10)


def _label(fact: str) -> str:
    return FACTS[fact].label


def _entry(axis: Axis, entry: Entry, writer: Writer) -> str:
    kind = FACTS[axis.fact].kind
    if isinstance(entry, bool):
        return "yes" if entry else "no"
    return entry if isinstance(entry, str) else writer.both(entry, kind) if kind in KINDS else f"{entry:g}"


def _value(value: float | None, table: Table, writer: Writer) -> str:
    return "open" if value is None else writer.both(value, table.kind)
