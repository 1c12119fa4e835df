"""The sheet of limits that is filled in where the adopted code lies open: its columns, and a line of it as read."""

from __future__ import annotations

from compliance.problems import Place
from compliance.record import record

KEYS = ("rule_set", "rule", "limit", "row", "column")
"""Columns that say which limit a line is about; row and column of a table count from 1."""
KNOWN = ("title", "clause", "read in", "adopted edition", "known as", "standing", "changes so far")
"""Columns for the reader, which are not read back."""
TO_FILL = ("value as read", "edition", "read by", "on", "where", "authority", "reason")
COLUMNS = (*KEYS, *KNOWN, *TO_FILL)
FIELD_PARTS = ("value", "edition", "initials")
"""Of a limit on the worksheet: its form fields are called RULE_SET/RULE/LIMIT/PART, those of a cell .../ROW,COLUMN."""


@record
class FilledLimit:
    """A line with a value; texts as they were written, empty where nothing was."""

    place: Place
    rule: str
    limit: str
    value: str
    row: str = ""
    column: str = ""
    edition: str = ""
    by: str = ""
    on: str = ""
    where: str = ""
    authority: str = ""
    reason: str = ""


def field_name(rule_set: str, rule: str, limit: str, part: str) -> str:
    return "/".join((rule_set, rule, limit, part))
