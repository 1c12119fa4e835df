"""Tables of limits for a reader: which table a limit is, and what its rows and columns are called."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.facts.catalogue import FACTS
from compliance.findings import LimitUsed
from compliance.rules.rule_set import RuleSet
from compliance.rules.tables import Axis, Entry, Table
from compliance.units import KINDS, Writer


def table_of(rule_sets: Sequence[RuleSet], limit: LimitUsed) -> Table | None:
    """The table that the limit is; None where it is a single value."""
    rules = (rule for one in rule_sets if one.id == limit.rule_set for rule in one.rules)
    return next((rule.tables.get(limit.name) for rule in rules if rule.id == limit.rule), None)


def corner_words(table: Table) -> str:
    """What the rows go by, and the columns where there are any."""
    rows = FACTS[table.rows.fact].label
    return f"{rows}, by {FACTS[table.columns.fact].label}" if table.columns else rows


def entry_words(axis: Axis, entry: Entry, writer: Writer, both: bool = False) -> str:
    """What a row or a column stands for, measures in the project's units or in both."""
    kind = FACTS[axis.fact].kind
    if isinstance(entry, bool):
        return "yes" if entry else "no"
    if isinstance(entry, str):
        return entry
    write = writer.both if both else writer.write
    return write(entry, kind) if kind in KINDS else f"{entry:g}"
