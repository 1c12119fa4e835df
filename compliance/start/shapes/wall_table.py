"""A list of walls from a table: a line for each wall, its unit in the heading, as in the lab tables."""

from __future__ import annotations

import re
from pathlib import Path

from compliance.model.base import MARK_PATTERN
from compliance.model.lab_columns import ColumnSpec
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import read_bytes
from compliance.reading.tables.csv_table import read_csv_table
from compliance.reading.tables.table_rows import Row, read_rows
from compliance.units import Measure

ENDINGS = (".csv", ".xlsx")
_MOST_BYTES = 10_000_000
_YES_NO = ("yes", "no")


def _measure(name: str, kind: str) -> ColumnSpec:
    return ColumnSpec(name, kind)


def _word(name: str, choices: tuple[str, ...] = ()) -> ColumnSpec:
    what = "choice" if choices else "text"
    return ColumnSpec(name, what, required=False, may_be_empty=True, choices=choices)


COLUMNS: dict[str, ColumnSpec] = {
    "mark": ColumnSpec("mark", "text"),
    "from_x": _measure("from x", "coordinate"),
    "from_y": _measure("from y", "coordinate"),
    "to_x": _measure("to x", "coordinate"),
    "to_y": _measure("to y", "coordinate"),
    "height": _measure("height", "length"),
    "thickness": _measure("thickness", "thickness"),
    "name": _word("name"),
    "use": _word("use", ("exterior", "interior", "garden")),
    "bears_load": _word("bears load", _YES_NO),
    "braces": _word("braces", _YES_NO),
}


def read_wall_table(path: Path) -> dict[str, dict[str, object]]:
    """The walls by mark, each with what `walls:` takes. Raises ProblemsFound: `mark`, `start-wall-twice`, and those of
    lab tables."""
    shown = path.as_posix()
    rows = _xlsx_rows(path, shown) if path.suffix.lower() == ".xlsx" else read_csv_table(path, shown, COLUMNS)
    problems: list[Problem] = []
    walls: dict[str, dict[str, object]] = {}
    for row in rows:
        mark = row.texts["mark"]
        if not re.match(MARK_PATTERN, mark):
            instead = "begin with a letter, then letters, digits, - or _, at most 24 in all"
            problems.append(Problem(row.place_of("mark"), "mark", f"{mark!r} cannot be a mark", instead))
        elif mark in walls:
            wrong = f"the wall {mark} stands in the table twice"
            problems.append(Problem(row.place_of("mark"), "start-wall-twice", wrong, "give each wall its own mark"))
        walls[mark] = _wall(row)
    if not rows and not problems:
        problems.append(Problem(Place(shown), "start-no-walls", "the table has no walls", "write a row to a wall"))
    if problems:
        raise ProblemsFound(problems)
    return walls


def _wall(row: Row) -> dict[str, object]:
    def text(name: str) -> str:
        value = row.values[name]
        assert isinstance(value, Measure)
        return f"{_rounded(float(row.texts[name]))} {value.unit}"

    wall: dict[str, object] = {name: row.texts[name] for name in ("name", "use") if row.texts[name]}
    wall["run"] = {"from": [text("from_x"), text("from_y")], "to": [text("to_x"), text("to_y")]}
    wall |= {name: text(name) for name in ("height", "thickness")}
    return wall | {name: row.texts[name] for name in ("bears_load", "braces") if row.texts[name]}


def _rounded(number: float) -> str:
    """Nine figures: a workbook holds more than anyone measures."""
    return f"{round(number, 9):.9g}" if abs(number) >= 1e-4 else "0"


def _xlsx_rows(path: Path, shown: str) -> list[Row]:
    from compliance.reading.tables.xlsx_table import xlsx_cells

    cells = xlsx_cells(read_bytes(path, shown, "xlsx", _MOST_BYTES), shown=shown, sheet=None, first=None, last=None)
    return read_rows(cells.rows, COLUMNS, cells.places, cells.found)
