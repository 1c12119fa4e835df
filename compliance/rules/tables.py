"""Tables of limits: look-up by facts, next worse entry or straight line between entries, never beyond an edge."""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.findings import Amended, Standing
from compliance.problems import Place
from compliance.record import record
from compliance.steps import Source

SAME = 1e-9
Entry = float | str | bool


@record
class Axis:
    """Rows or columns: the fact they go by, and its entries in SI or as words, in the order of the table."""

    fact: str
    entries: tuple[Entry, ...]
    worse: str = ""

    @property
    def numeric(self) -> bool:
        return bool(self.worse)


@record
class Looked:
    """What a table says: a value, or None with `outside` (beyond its edge on the worse side, or no such entry)
    or `open` (the cell is not known). `how` tells the reader which entries were used."""

    value: float | None
    how: str
    outside: bool = False
    open: bool = False


@record
class Table:
    """Cells in SI, None where open. `between` is "next-worse" or "linear"."""

    name: str
    rows: Axis
    columns: Axis | None
    cells: tuple[tuple[float | None, ...], ...]
    kind: str
    between: str
    standing: Standing
    source: str
    clause: str
    place: Place
    read_in: str = ""
    note: str = ""
    amended: Amended | None = None

    @property
    def known_from(self) -> Source:
        """The source of its cells, doubtful where nobody read it in the code."""
        return Source(self.source, self.standing.wants_confirming)

    @property
    def fact_names(self) -> tuple[str, ...]:
        return (self.rows.fact, self.columns.fact) if self.columns else (self.rows.fact,)

    @property
    def wholly_open(self) -> bool:
        return all(cell is None for row in self.cells for cell in row)

    def look_up(self, row: Entry, column: Entry | None = None) -> Looked:
        """The value for a row, and a column where the table has columns; one beyond the table is `outside`."""
        linear = self.between == "linear"
        rows = weights(self.rows, row, linear)
        columns = [(0, 1.0)] if self.columns is None else weights(self.columns, column, linear)
        if rows is None or columns is None:
            axis = self.rows if rows is None else self.columns
            return Looked(None, f"outside the table's {axis.fact if axis else ''} entries", outside=True)
        total = 0.0
        for i, row_weight in rows:
            for j, column_weight in columns:
                cell = self.cells[i][j]
                if cell is None:
                    return Looked(None, self._used(rows, columns), open=True)
                total += row_weight * column_weight * cell
        return Looked(total, self._used(rows, columns))

    def _used(self, rows: Sequence[tuple[int, float]], columns: Sequence[tuple[int, float]]) -> str:
        plural = len(rows) * len(columns) > 1
        row = " and ".join(str(i + 1) for i, _ in rows)
        text = f"row {row}"
        if self.columns:
            text += " column " + " and ".join(str(j + 1) for j, _ in columns)
        return text + (", straight line between" if plural else "")


def weights(axis: Axis, value: Entry | None, linear: bool) -> list[tuple[int, float]] | None:
    """Which entries stand for `value`, and with what weight; None outside the table.

    A word must be an entry. A number between two entries takes the worse one, or both by distance; beyond
    the last entry on the better side that entry stands; beyond it on the worse side nothing does.
    """
    if not axis.numeric:
        matches = [index for index, entry in enumerate(axis.entries) if entry == value]
        return [(matches[0], 1.0)] if matches else None
    assert value is not None and not isinstance(value, str)
    order = sorted(range(len(axis.entries)), key=lambda index: float(axis.entries[index]))
    numbers = [float(axis.entries[index]) for index in order]
    for index, number in zip(order, numbers, strict=True):
        if math.isclose(number, value, rel_tol=SAME):
            return [(index, 1.0)]
    if value < numbers[0]:
        return None if axis.worse == "smaller" else [(order[0], 1.0)]
    if value > numbers[-1]:
        return None if axis.worse == "larger" else [(order[-1], 1.0)]
    upper = next(place for place, number in enumerate(numbers) if number > value)
    if linear:
        share = (value - numbers[upper - 1]) / (numbers[upper] - numbers[upper - 1])
        return [(order[upper - 1], 1 - share), (order[upper], share)]
    return [(order[upper - 1 if axis.worse == "smaller" else upper], 1.0)]
