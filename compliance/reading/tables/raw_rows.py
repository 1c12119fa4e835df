"""The rows of a table that nobody has described yet, as they stand in its file."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice
from pathlib import PurePath

from compliance.model.materials import SpecimenKind
from compliance.problems import ProblemsFound
from compliance.reading.plain_file import decoded
from compliance.reading.tables.csv_table import csv_cells
from compliance.reading.tables.lab_tables import WORKBOOKS
from compliance.reading.tables.proposed_columns import Numbered, known_headings
from compliance.reading.tables.table_rows import MOST_ROWS

_LOOKED_AT = 100


def raw_rows(
    data: bytes, shown: str, kind: SpecimenKind, sheet: str | None = None, heading_row: int | None = None
) -> list[Numbered]:
    """Every row with its line. Raises ProblemsFound for a file that cannot be taken apart."""
    if PurePath(shown).suffix.lower() in WORKBOOKS:
        from compliance.reading.tables.xlsx_table import xlsx_cells

        return list(xlsx_cells(data, shown=shown, sheet=sheet, first=1, last=None).rows)
    text = decoded(data, shown, "csv")
    if heading_row is not None:
        return _parted(text, shown, heading_row)
    lines = text.splitlines()[:_LOOKED_AT]
    most = max(range(len(lines)), key=lambda at: lines[at].count(";"), default=0)
    plain = _parted(text, shown, None)
    other = _parted(text, shown, most + 1) if lines and ";" in lines[most] else plain
    return max(plain, other, key=lambda rows: _best(kind, rows))


def _best(kind: SpecimenKind, rows: Sequence[Numbered]) -> int:
    return max((known_headings(kind, cells) for _, cells in rows[:_LOOKED_AT]), default=0)


def _parted(text: str, shown: str, heading_row: int | None) -> list[Numbered]:
    cells = csv_cells(text, shown, heading_row)
    rows = list(islice(cells.rows, MOST_ROWS + 2))
    if cells.found:
        raise ProblemsFound(cells.found)
    return rows
