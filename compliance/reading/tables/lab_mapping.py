"""A laboratory's own headings, units and constants put in place of ours, as the project's `lab:` section says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compliance.model.lab import LabTable
from compliance.model.lab_columns import COLUMNS, ColumnSpec, LabColumn
from compliance.model.materials import SpecimenKind
from compliance.problems import Problem
from compliance.reading.tables.csv_cells import Value, read_choice, read_date
from compliance.reading.tables.csv_heading import column_unit, folded, heading_parts
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.record import record, replace
from compliance.refused import RefusedError, nearest
from compliance.units import KINDS, MeasureError, parse_measure

_ALWAYS = ("set", "specimen")
Numbered = tuple[int, list[str]]


@record
class Mapping:
    """One table's `lab:` entry, found sound: `columns` as `read_rows` takes them, `constants` with their texts."""

    kind: SpecimenKind
    table: LabTable
    columns: dict[str, LabColumn]
    constants: dict[str, tuple[Value, str]]
    tree: PlacedDict

    def problem(self, path: tuple[str, ...], code: str, wrong: str, instead: str) -> Problem:
        return Problem(place_of(self.tree, ("lab", self.kind, *path)), code, wrong, instead)

    def renamed(self, rows: Iterable[Numbered], found: list[Problem]) -> Iterator[Numbered]:
        """The rows of the table with our headings in the first of them; what lacks joins `found`."""
        table = self.table
        first = True
        for line, cells in rows:
            if (table.heading_row and line < table.heading_row) or (table.last_row and line > table.last_row):
                continue
            if first and any(cell.strip() for cell in cells):
                first = False
                yield line, self._headings(cells, found)
            else:
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
            return f"{spec.name} [{self.table.units[key]}]"
        unit = _unit(cell)
        if spec.kind is not None and spec.kind.si and unit is None:
            wrong = f"the heading {cell.strip()!r} has no unit in square brackets"
            found.append(self.problem(("columns", key), "lab-unit", wrong, f"add units: {{{key}: {spec.kind.si}}}"))
            return f"{spec.name} [{spec.kind.si}]"
        return spec.name if unit is None else f"{spec.name} [{unit}]"


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


def mapping(kind: SpecimenKind, table: LabTable, tree: PlacedDict, problems: list[Problem]) -> Mapping:
    """What `table` says, its slips added to `problems`. A laboratory's table needs only set and specimen."""
    columns = {
        key: spec if key in _ALWAYS else replace(spec, required=False, may_be_empty=True)
        for key, spec in COLUMNS[kind].items()
        if key not in table.every_row
    }
    made = Mapping(kind, table, columns, {}, tree)
    problems += [*_key_problems(made), *_heading_problems(made), *_unit_problems(made)]
    constants: dict[str, tuple[Value, str]] = {}
    for key, text in table.every_row.items():
        if key in COLUMNS[kind]:
            try:
                constants[key] = (_constant(COLUMNS[kind][key], text), text)
            except RefusedError as refused:
                problems.append(made.problem(("every_row", key), refused.code, refused.wrong, refused.instead))
    return replace(made, constants=constants)


def _key_problems(made: Mapping) -> Iterator[Problem]:
    """Columns that are none of ours, and what cannot be the same for every row."""
    own, table = COLUMNS[made.kind], made.table
    for section in ("columns", "units", "every_row"):
        for key in getattr(table, section):
            if key not in own:
                near = nearest(key, own)
                advice = f"did you mean {near}?" if near else f"known: {', '.join(own)}"
                yield made.problem((section, key), "lab-column", f"there is no column {key!r}", advice)
            elif section == "every_row" and (key in table.columns or key == "specimen"):
                wrong = f"{key} cannot be the same for every row"
                yield made.problem((section, key), "lab-column", wrong, "keep it under columns:")


def _heading_problems(made: Mapping) -> Iterator[Problem]:
    """One heading of theirs for two columns of ours."""
    seen: dict[str, str] = {}
    for key, theirs in made.table.columns.items():
        first = seen.setdefault(folded(theirs), key)
        if first != key:
            wrong = f"{first} and {key} cannot both be headed {theirs!r}"
            yield made.problem(("columns", key), "lab-heading", wrong, "give each its own heading")


def _unit_problems(made: Mapping) -> Iterator[Problem]:
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
