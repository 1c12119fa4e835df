"""A laboratory's own headings, units and constants put in place of ours, as the project's `lab:` section says."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from compliance.model.lab import LabTable
from compliance.model.lab_columns import COLUMNS, ColumnSpec, LabColumn
from compliance.model.materials import SpecimenKind
from compliance.problems import Problem
from compliance.reading.tables.cell_style import CellStyle, style_of
from compliance.reading.tables.csv_cells import Value, read_choice, read_date
from compliance.reading.tables.csv_heading import column_unit, folded, heading_parts
from compliance.reading.tables.table_rows import Locate
from compliance.reading.tables.units_in_headings import same_unit, unit_in_heading
from compliance.reading.tables.xlsx_places import column_number
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.record import record, replace
from compliance.refused import RefusedError, nearest
from compliance.units import KINDS, MeasureError, parse_measure

_ALWAYS = ("set", "specimen")
_OF_EACH = ("specimen", "peak_load", "strength", "dried_length", "shrinkage", "mass", "failure")
"""What is measured of each specimen by itself."""
Numbered = tuple[int, list[str]]


@record
class Area:
    """The part of a file that a table fills: rows from 1, columns from 0; None and 0 where the whole file does."""

    first_row: int | None = None
    last_row: int | None = None
    first_column: int = 0
    end_column: int | None = None

    def columns_of(self, row: list[str]) -> list[str]:
        """The cells of the area in a row, blanks where the row is shorter."""
        if self.end_column is None:
            return row
        cells = row[self.first_column : self.end_column]
        return cells + [""] * (self.end_column - self.first_column - len(cells))


_RANGE = re.compile(r"([A-Z]+)([0-9]+):([A-Z]+)([0-9]+)")


def area_of(cells: str | None) -> Area:
    """The area that a range such as A5:H20 names; the whole file without one."""
    match = _RANGE.fullmatch(cells or "")
    if match is None:
        return Area()
    left, right = sorted((column_number(match[1]), column_number(match[3])))
    return Area(int(match[2]), int(match[4]), left - 1, right)


@record
class TableMapping:
    """One table's `lab:` entry, found sound: `columns` as `read_rows` takes them, `constants` with their texts."""

    kind: SpecimenKind
    table: LabTable
    columns: dict[str, LabColumn]
    constants: dict[str, tuple[Value, str]]
    tree: PlacedDict
    path: tuple[str | int, ...]
    style: CellStyle
    area: Area

    @property
    def heading_row(self) -> int | None:
        return self.area.first_row or self.table.heading_row

    @property
    def last_row(self) -> int | None:
        return self.area.last_row or self.table.last_row

    def places(self, locate: Locate) -> Locate:
        """`locate` for the cells of the table, whose first may stand in another column of the file."""
        left = self.area.first_column
        return lambda line, index: locate(line, None if index is None else index + left)

    def problem(self, path: tuple[str, ...], code: str, wrong: str, instead: str) -> Problem:
        return Problem(place_of(self.tree, ("lab", *self.path, *path)), code, wrong, instead)

    def renamed(self, rows: Iterable[Numbered], found: list[Problem]) -> Iterator[Numbered]:
        """The rows of the table with our headings in the first of them; what lacks joins `found`."""
        heading_row, last_row = self.heading_row, self.last_row
        first, marks = True, MarksAbove()
        for line, row in rows:
            if heading_row and line < heading_row:
                continue
            cells = self.area.columns_of(row)
            if last_row and line > last_row:
                if mark := marks.again(cells):
                    wrong = f"row {line}, below the last row {last_row}, looks like a specimen: {mark}"
                    advice = "let the last specimen be the last row; one that is none needs another mark, such as Mean"
                    named = "cells" if self.table.cells else "last_row"
                    found.append(self.problem((named,), "lab-last-row", wrong, advice))
                continue
            if first and any(cell.strip() for cell in cells):
                first = False
                renamed = self._headings(cells, found)
                marks.column = next((at for at, cell in enumerate(renamed) if folded(cell) == "specimen"), None)
                yield line, renamed
            else:
                marks.add(cells)
                yield line, cells

    def _headings(self, cells: list[str], found: list[Problem]) -> list[str]:
        renamed = list(cells)
        for key, theirs in self.table.columns.items():
            if key not in self.columns:
                continue
            at = [index for index, cell in enumerate(cells) if folded(theirs) in (folded(cell), folded(_bare(cell)))]
            if len(at) == 1:
                renamed[at[0]] = self._with_unit(key, cells[at[0]], found)
                continue
            near = nearest(theirs, [cell.strip() for cell in cells if cell.strip()])
            hint = f"did you mean {near}?" if near else "write the heading as it stands in the table"
            wording = f"{len(at)} columns are" if at else "no column is"
            wrong = f"{wording} headed {theirs!r} in {self.table.file}"
            found.append(self.problem(("columns", key), "lab-heading", wrong, hint if not at else "give each its own"))
        return renamed

    def _with_unit(self, key: str, cell: str, found: list[Problem]) -> str:
        spec = self.columns[key]
        if key in self.table.units:
            stated, written = self.table.units[key], unit_in_heading(cell, spec)
            if written is not None and not same_unit(stated, written, spec):
                wrong = f"units: says {stated} for {key}, but its heading {cell.strip()!r} says {written}"
                found.append(self.problem(("units", key), "lab-unit", wrong, f"write {key}: {written}, or ask the lab"))
            return f"{spec.name} [{stated}]"
        unit = _unit(cell)
        if spec.kind is not None and spec.kind.si and unit is None:
            wrong = f"the heading {cell.strip()!r} has no unit in square brackets"
            meant = unit_in_heading(cell, spec) or "the unit the laboratory measured in"
            found.append(self.problem(("columns", key), "lab-unit", wrong, f"add units: {{{key}: {meant}}}"))
            return f"{spec.name} [{spec.kind.si}]"
        return spec.name if unit is None else f"{spec.name} [{unit}]"


class MarksAbove:
    """The marks of the specimens in a table, to know one that stands below its last row."""

    def __init__(self) -> None:
        self.column: int | None = None
        self._forms: set[str] = set()

    def add(self, cells: list[str]) -> None:
        mark = self._mark(cells)
        if mark:
            self._forms.add(_form(mark))

    def again(self, cells: list[str]) -> str:
        """The mark of a row that is formed like those above it; empty where it is not."""
        mark = self._mark(cells)
        return mark if mark and _form(mark) in self._forms else ""

    def _mark(self, cells: list[str]) -> str:
        return cells[self.column].strip() if self.column is not None and self.column < len(cells) else ""


def _form(mark: str) -> str:
    return re.sub("[0-9]+", "0", mark).casefold()


def _bare(cell: str) -> str:
    """A heading without the unit in square brackets, where it has one."""
    try:
        return heading_parts(cell)[0]
    except RefusedError:
        return cell


def _unit(cell: str) -> str | None:
    try:
        return heading_parts(cell)[1]
    except RefusedError:
        return None


def mapping(
    kind: SpecimenKind, table: LabTable, tree: PlacedDict, problems: list[Problem], path: tuple[str | int, ...]
) -> TableMapping:
    """What `table`, at `path` below `lab`, says, its slips added to `problems`. A laboratory's table needs only set and
    specimen."""
    columns = {
        key: spec if key in _ALWAYS else replace(spec, required=False, may_be_empty=True)
        for key, spec in COLUMNS[kind].items()
        if key not in table.every_row
    }
    style = style_of(table.dates, table.decimal, table.thousands)
    made = TableMapping(
        kind=kind,
        table=table,
        columns=columns,
        constants={},
        tree=tree,
        path=path,
        style=style,
        area=area_of(table.cells),
    )
    problems += _layout_problems(made)
    problems += [*_key_problems(made), *_heading_problems(made), *_unit_problems(made)]
    constants: dict[str, tuple[Value, str]] = {}
    for key, text in table.every_row.items():
        if key in COLUMNS[kind]:
            try:
                constants[key] = (_constant(COLUMNS[kind][key], text), text)
            except RefusedError as refused:
                problems.append(made.problem(("every_row", key), refused.code, refused.wrong, refused.instead))
    return replace(made, constants=constants)


def _layout_problems(made: TableMapping) -> Iterator[Problem]:
    """What the entry says of rows and numbers that cannot be."""
    table = made.table
    if table.cells and (table.heading_row or table.last_row):
        wrong = "cells: says where the table begins and ends, and so do heading_row: and last_row:"
        yield made.problem(("cells",), "lab-cells", wrong, "keep one of them")
    area = made.area
    if area.last_row is not None and area.first_row is not None and area.last_row <= area.first_row:
        wrong = f"the cells {table.cells} hold no row below the headings"
        yield made.problem(("cells",), "lab-cells", wrong, "name the first heading and the last cell, as in A5:H20")
    if table.thousands == table.decimal:
        wrong = f"the table cannot have a {table.decimal} before decimals and between thousands"
        yield made.problem(("thousands",), "lab-decimal", wrong, "correct decimal: or thousands:")


def _key_problems(made: TableMapping) -> Iterator[Problem]:
    """Columns that are none of ours, and what cannot be the same for every row."""
    own, table = COLUMNS[made.kind], made.table
    for section in ("columns", "units", "every_row"):
        for key in getattr(table, section):
            if key not in own:
                near = nearest(key, own)
                advice = f"did you mean {near}?" if near else f"known: {', '.join(own)}"
                yield made.problem((section, key), "lab-column", f"there is no column {key!r}", advice)
            elif section == "every_row" and (key in table.columns or key in _OF_EACH):
                wrong = f"{key} cannot be the same for every row"
                yield made.problem((section, key), "lab-column", wrong, "keep it under columns:")


def _heading_problems(made: TableMapping) -> Iterator[Problem]:
    """One heading of theirs for two columns of ours."""
    seen: dict[str, str] = {}
    for key, theirs in made.table.columns.items():
        first = seen.setdefault(folded(theirs), key)
        if first != key:
            wrong = f"{first} and {key} cannot both be headed {theirs!r}"
            yield made.problem(("columns", key), "lab-heading", wrong, "give each its own heading")


def _unit_problems(made: TableMapping) -> Iterator[Problem]:
    """Units that are unknown, do not fit their column, or belong to none."""
    own = COLUMNS[made.kind]
    for key, unit in made.table.units.items():
        if key not in own:
            continue
        try:
            column_unit(own[key], unit)
        except RefusedError as refused:
            yield made.problem(("units", key), refused.code, refused.wrong, refused.instead)
        if key not in made.table.columns:
            yield made.problem(("units", key), "lab-unit", f"{key} is not named under columns:", "name it")


def _constant(spec: ColumnSpec, text: str) -> Value:
    """What is the same for all specimens: a measure with its unit, a word, a date or a text. Raises RefusedError."""
    if spec.kind is not None:
        try:
            return parse_measure(text, KINDS[spec.what])
        except MeasureError as error:
            raise RefusedError(error.code, error.wrong, error.instead) from None
    if spec.what == "choice":
        return read_choice(text, spec.choices)
    return read_date(text) if spec.what == "date" else text
