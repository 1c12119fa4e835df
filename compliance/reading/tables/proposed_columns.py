"""A laboratory's table that nobody has described yet: its rows as they stand, and how they are probably to be read."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from difflib import SequenceMatcher
from itertools import islice
from pathlib import PurePath

from compliance.model.lab import DateOrder
from compliance.model.lab_columns import COLUMNS
from compliance.model.materials import SpecimenKind
from compliance.problems import ProblemsFound
from compliance.reading.plain_file import decoded
from compliance.reading.tables.cell_style import only_order
from compliance.reading.tables.csv_heading import folded
from compliance.reading.tables.csv_table import csv_cells
from compliance.reading.tables.lab_tables import WORKBOOKS
from compliance.reading.tables.table_rows import MOST_ROWS
from compliance.reading.tables.units_in_headings import unit_in_heading
from compliance.record import record

Numbered = tuple[int, list[str]]

OTHER_HEADINGS: Mapping[str, tuple[str, ...]] = {
    "set": ("set no", "series", "group"),
    "specimen": ("specimen id", "specimen no", "sample", "sample id", "piece", "beam", "cube", "prism", "bar"),
    "cast": ("date cast", "cast on", "date made", "made", "date molded"),
    "tested": ("date tested", "tested on", "test date", "date broken", "date measured"),
    "width": ("breadth",),
    "depth": ("length", "overall length"),
    "span": ("support span",),
    "form_length": ("mold length", "wet length", "initial length"),
    "dried_length": ("dry length", "final length"),
    "mass": ("weight",),
    "peak_load": ("load", "maximum load", "max load", "ultimate load", "failure load", "load at break"),
    "strength": ("compressive strength", "stress", "rupture", "modulus of rupture"),
    "failure": ("failure mode", "type of break"),
    "batch": ("batch no",),
    "note": ("remarks", "comments", "notes"),
}
"""What laboratories write over a column, by our name of it (common practice, no source)."""
_LOOKED_AT = 100
_LEAST, _ALIKE, _SAME = 2, 0.8, 1.0
_POINT = re.compile(r"[0-9]{1,3}(?:,?[0-9]{3})*\.[0-9]+")
_GROUPED = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?")
_COMMA = re.compile(r"[0-9]+,(?:[0-9]{1,2}|[0-9]{4,})")
_UNIT = re.compile(r"\s*[\[(,;:].*$")


@record
class Proposal:
    """`heading_row` and `last_row` are lines of the file, None where the table ends with it; `columns` our names by the
    index of a heading, `units` what its heading names. `dates` is the one order that its days can have; `decimal` and
    `thousands` as a `lab:` entry says them."""

    heading_row: int
    last_row: int | None
    columns: Mapping[int, str]
    units: Mapping[int, str]
    dates: DateOrder | None
    decimal: str
    thousands: str


def propose(kind: SpecimenKind, rows: Sequence[Numbered], heading_row: int | None = None) -> Proposal:
    """For a table whose headings stand in `heading_row`, or where most of them are known. `rows` are not empty."""
    line, headings = _heading(kind, rows, heading_row)
    columns = _columns(kind, headings)
    units = {at: unit for at, name in columns.items() if (unit := unit_in_heading(headings[at], COLUMNS[kind][name]))}
    below = [one for one in rows if one[0] > line]
    last = _last_row(below, headings, columns)
    table = [cells for number, cells in below if last is None or number <= last]
    days = [at for at, name in columns.items() if COLUMNS[kind][name].what == "date"]
    dates = only_order(cells[at].strip() for cells in table for at in days if at < len(cells))
    numbers = [at for at, name in columns.items() if COLUMNS[kind][name].kind is not None]
    decimal, thousands = _marks(cells[at].strip() for cells in table for at in numbers if at < len(cells))
    return Proposal(
        line, last, columns=columns, units=units, dates=dates, decimal=decimal, thousands=thousands
    )  # fmt: skip


def _marks(texts: Iterable[str]) -> tuple[str, str]:
    """The sign before decimals and the mark between thousands, where both are plain from the numbers."""
    some = [text for text in texts if text]
    has_point = any(_POINT.fullmatch(text) for text in some)
    if has_point and any(_GROUPED.fullmatch(text) for text in some):
        return "point", "comma"
    if not has_point and any(_COMMA.fullmatch(text) for text in some):
        return "comma", ""
    return "point", ""


def known_headings(kind: SpecimenKind, cells: Sequence[str]) -> int:
    """How many of the cells are headings that are known."""
    names = _names(kind, cells)
    return sum(_score(cell, names[name]) == _SAME for cell in cells if cell.strip() for name in names)


def _heading(kind: SpecimenKind, rows: Sequence[Numbered], wanted: int | None) -> Numbered:
    filled = [(line, cells) for line, cells in rows if any(cell.strip() for cell in cells)] or list(rows[:1])
    found = next((one for one in filled if one[0] == wanted), None)
    if found is not None:
        return found
    best = max(filled[:_LOOKED_AT], key=lambda one: (known_headings(kind, one[1]), -one[0]))
    return best if known_headings(kind, best[1]) >= _LEAST else filled[0]


def _columns(kind: SpecimenKind, headings: Sequence[str]) -> dict[int, str]:
    """Our columns by the index of the heading that is likest to each, none of either twice."""
    pairs = sorted(_pairs(kind, headings), reverse=True)
    found: dict[int, str] = {}
    for _, at, name in ((score, -back, name) for score, back, name in pairs):
        if at not in found and name not in found.values():
            found[at] = name
    return dict(sorted(found.items()))


def _pairs(kind: SpecimenKind, headings: Sequence[str]) -> Iterator[tuple[float, int, str]]:
    names = _names(kind, headings)
    for at, cell in enumerate(headings):
        for name in names if cell.strip() else ():
            score = _score(cell, names[name])
            if score >= _ALIKE:
                yield score, -at, name


def _names(kind: SpecimenKind, headings: Sequence[str]) -> dict[str, set[str]]:
    """What each column may be called. Where a table of beams has no height, its depth is what we call so, and its
    length what we call the depth."""
    found = {
        name: {folded(name), folded(one.title), *OTHER_HEADINGS.get(name, ())} for name, one in COLUMNS[kind].items()
    }
    if kind == "rupture" and "height" not in map(_bare, headings):
        found["height"] = found["height"] | {"depth"}
        found["depth"] = set(OTHER_HEADINGS["depth"])
    return found


def _bare(cell: str) -> str:
    return folded(_UNIT.sub("", cell)).rstrip(" .")


def _score(cell: str, names: set[str]) -> float:
    """How like a heading, its unit left out, is to what a column is called: 1 for the same."""
    bare = _bare(cell)
    if bare in names:
        return _SAME
    return max((SequenceMatcher(None, bare, name).ratio() for name in names), default=0.0) * 0.99


def _last_row(below: Sequence[Numbered], headings: Sequence[str], columns: Mapping[int, str]) -> int | None:
    """The last row that is filled like those of specimens; None where nothing stands below it."""
    wanted = sum(bool(cell.strip()) for cell in headings) / 2
    mark = next((at for at, name in columns.items() if name == "specimen"), None)
    last, is_ended, has_more = None, False, False
    for line, cells in below:
        filled = sum(bool(cell.strip()) for cell in cells[: len(headings)])
        named = mark is None or (mark < len(cells) and bool(cells[mark].strip()))
        if filled >= wanted and named and not is_ended:
            last = line
        else:
            is_ended = True
            has_more = has_more or any(cell.strip() for cell in cells)
    return last if has_more else None


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
    return max(plain, other, key=lambda rows: _most_known(kind, rows))


def _most_known(kind: SpecimenKind, rows: Sequence[Numbered]) -> int:
    return max((known_headings(kind, cells) for _, cells in rows[:_LOOKED_AT]), default=0)


def _parted(text: str, shown: str, heading_row: int | None) -> list[Numbered]:
    cells = csv_cells(text, shown, heading_row)
    rows = list(islice(cells.rows, MOST_ROWS + 2))
    if cells.found:
        raise ProblemsFound(cells.found)
    return rows
