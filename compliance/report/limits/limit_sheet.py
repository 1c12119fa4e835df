"""The sheet of limits as comma-separated values, a line for each limit and each cell of a table, to fill in."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from compliance.checked import Checked
from compliance.findings import LimitUsed
from compliance.record import replace
from compliance.report.limits.limit_history import history_lines
from compliance.report.limits.limit_list import ListedLimit, limit_text, limits_relied_on
from compliance.report.limits.table_words import table_of
from compliance.report.revisions.findings_data import harmless
from compliance.rules.amended_limits import cell_name
from compliance.rules.limits.filled_limit import COLUMNS, KEYS, KNOWN, TO_FILL
from compliance.rules.rule_set import RuleSet
from compliance.rules.tables import Table
from compliance.units import Writer

_STANDING = len(KEYS) + KNOWN.index("standing")


def limit_sheet(checked: Checked, all_limits: bool) -> str:
    """The limits the findings rest on, least known first; with `all_limits` also those that are confirmed and were
    never changed."""
    writer = Writer(checked.project.project.units)
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow(COLUMNS)
    sets = {one.id: one for one in checked.rule_sets}
    for one in limits_relied_on(checked.findings):
        for row in _rows(one, sets[one.limit.rule_set], writer):
            if all_limits or row[_STANDING] != "confirmed" or one.limit.is_changed:
                rows.writerow([harmless(cell) for cell in (*row, *("" for _ in TO_FILL))])
    return out.getvalue()


def _rows(one: ListedLimit, rule_set: RuleSet, writer: Writer) -> Iterator[tuple[str, ...]]:
    limit = one.limit
    key = (limit.rule_set, limit.rule, limit.name)
    known = (one.title, limit.clause, limit.read_in, rule_set.edition)
    table = table_of([rule_set], limit)
    if table is None:
        yield (*key, "", "", *known, limit_text(limit, writer), limit.standing.value, _history(limit, "", writer))
        return
    for i, cells in enumerate(table.cells):
        for j, value in enumerate(cells):
            text = "open" if value is None else writer.both(value, table.kind)
            history = _history(limit, cell_name(i, j), writer)
            yield (*key, str(i + 1), str(j + 1), *known, text, _standing(table, i, j), history)


def _history(limit: LimitUsed, cell: str, writer: Writer) -> str:
    """The shipped value and each change in order, on one line."""
    of_cell = replace(limit, history=tuple(one for one in limit.history if one.cell == cell))
    return " | ".join(history_lines(of_cell, writer))


def _standing(table: Table, row: int, column: int) -> str:
    return "open" if table.cells[row][column] is None else table.standing_of([(row, column)]).value
