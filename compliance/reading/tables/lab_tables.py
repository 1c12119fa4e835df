"""The lab tables of a project folder into specimens: `lab/*.csv` under our headings, a laboratory's own by `lab:`."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING, Any

from compliance.facts.specimens.specimen_results import stated_beside_measured
from compliance.files.safe_paths import inside
from compliance.model.lab import own_table
from compliance.model.lab_columns import COLUMNS
from compliance.model.materials import SpecimenKind
from compliance.model.project import Project
from compliance.model.specimens import FIELDS, Entry, Specimen
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import read_bytes, read_text
from compliance.reading.tables.csv_cells import Value
from compliance.reading.tables.csv_heading import folded
from compliance.reading.tables.csv_table import MOST_BYTES, CsvCells, Row, csv_cells, read_csv_table
from compliance.reading.tables.lab_mapping import Mapping, mapping
from compliance.reading.tables.table_rows import read_rows
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.record import record
from compliance.refused import RefusedError
from compliance.units import Measure, unit

if TYPE_CHECKING:
    from compliance.reading.tables.xlsx_table import XlsxCells

_WORKBOOKS = (".xlsx", ".xlsm")
_TABLES = (".csv", ".txt")
_ALWAYS_TEXT = ("set", "mix", "batch", "note")
"""Fields of a specimen that are never None."""


@record
class LabLimits:
    """How far a stated strength may lie from load over measured sides, as a share of the latter; g in m/s²."""

    strength_difference: float
    gravity: float


def read_lab_tables(
    folder: Path, project: Project | None, tree: PlacedDict, limits: LabLimits
) -> tuple[list[Specimen], list[str], list[Problem]]:
    """All specimens, the names of the files read, and the problems found. A table of ours may be absent; without a
    sound `project` only those are read."""
    specimens: list[Specimen] = []
    names: list[str] = []
    problems: list[Problem] = []
    for kind, columns in COLUMNS.items():
        theirs = getattr(project.lab, kind) if project else None
        if project and theirs:
            made = mapping(kind, theirs, tree, problems)
            rows = _mapped_rows(folder, made, project, names, problems)
            specimens += _specimens(kind, rows, limits, problems)
        name = own_table(kind)
        if os.path.lexists(folder / name) and not (theirs and theirs.file == name):
            names.append(name)
            try:
                rows = read_csv_table(inside(folder, name), name, columns)
            except ProblemsFound as found:
                problems += found.problems
                continue
            except RefusedError as refused:
                problems.append(refused.at(Place(name)))
                continue
            specimens += _specimens(kind, rows, limits, problems)
    return specimens, names, problems


def _mapped_rows(folder: Path, made: Mapping, project: Project, names: list[str], problems: list[Problem]) -> list[Row]:
    """The rows of a laboratory's own table, under our column names; none where a problem stops it."""
    name, place = made.table.file, place_of(made.tree, ("lab", made.kind, "file"))
    found: list[Problem] = []
    try:
        path = inside(folder, name)
        if not path.is_file():
            raise RefusedError("file-missing", f"there is no file {name!r} in the folder", "add it or correct the name")
        cells = _cells(path, made, place)
        names.append(name)
        rows = read_rows(made.renamed(cells.rows, found), made.columns, cells.places, cells.found)
    except RefusedError as refused:
        problems.append(refused.at(place))
        return []
    except ProblemsFound as stopped:
        follow = ("csv-column-missing", "csv-column-near") if found else ()
        problems += found + [one for one in _distinct(stopped.problems) if one.code not in follow]
        return []
    problems += found
    return [] if found else [row for row in rows if _complete(row, made, project, problems)]


def _cells(path: Path, made: Mapping, place: Place) -> CsvCells | XlsxCells:
    """Raises RefusedError for a kind of file that is not read, ProblemsFound for one that cannot be."""
    name, table = made.table.file, made.table
    suffix = path.suffix.lower()
    if suffix in _WORKBOOKS:
        from compliance.reading.tables.xlsx_table import xlsx_cells  # with zip and XML, which most checks need not load

        data = read_bytes(path, name, "xlsx", MOST_BYTES)
        return xlsx_cells(data, name, table.sheet, table.heading_row, table.last_row)
    if suffix not in _TABLES:
        known = ", ".join((*_WORKBOOKS, *_TABLES))
        raise RefusedError("lab-file-kind", f"{name!r} is no table that can be read", f"save it as one of {known}")
    if table.sheet is not None:
        raise RefusedError("lab-sheet", f"{name!r} has no sheets", "remove sheet:")
    return csv_cells(read_text(path, name, "csv", MOST_BYTES), name, table.heading_row)


def _distinct(problems: list[Problem]) -> list[Problem]:
    """Of the problems at one place, those of the workbook itself: an error there reads as an empty cell, too."""
    own = {problem.place for problem in problems if problem.code in ("xlsx-formula", "xlsx-error")}
    return [one for one in problems if one.place not in own or one.code.startswith("xlsx-")]


def _complete(row: Row, made: Mapping, project: Project, problems: list[Problem]) -> bool:
    """Puts into a row what is the same for all, and the mix of its set where the table does not name it."""
    for key, (value, text) in made.constants.items():
        clash = next((name for name in row.extra if folded(name.partition("[")[0]) == folded(key)), None)
        if clash is not None:
            wrong = f"{made.table.file} has a column {clash!r} of its own"
            problems.append(made.problem(("every_row", key), "lab-column", wrong, "name it under columns: instead"))
            return False
        row.values[key], row.texts[key] = value, text
    if row.values.get("mix") is None:
        test = project.test_sets.get(str(row.values["set"]))
        row.values["mix"] = row.texts["mix"] = test.mix if test else ""
    return True


def _specimens(kind: SpecimenKind, rows: list[Row], limits: LabLimits, problems: list[Problem]) -> list[Specimen]:
    own = [name for name in COLUMNS[kind] if name in FIELDS]
    more = [name for name in COLUMNS[kind] if name not in FIELDS and name != "specimen"]
    above_zero = [column.name for column in COLUMNS[kind].values() if column.above_zero]
    found = [_specimen(kind, row, own, more) for row in rows]
    for row, one in zip(rows, found, strict=True):
        problems += _row_problems(row, one, above_zero)
        problems += _strength_problems(row, one, limits)
    return found


def _specimen(kind: SpecimenKind, row: Row, own: list[str], more: list[str]) -> Specimen:
    fields: dict[str, Any] = {name: _entry(row.values.get(name)) for name in own}
    rest = {name: entry for name in more if (entry := _entry(row.values.get(name))) not in (None, "")}
    fields |= {name: fields[name] or "" for name in _ALWAYS_TEXT if name in fields}
    return Specimen(
        kind=kind, mark=row.texts["specimen"], place=row.place, texts=row.texts, extra=row.extra,
        more=rest, **fields,
    )  # fmt: skip


def _entry(value: Value) -> Entry | None:
    """A measure in SI, a day or a word; None for an empty cell."""
    if isinstance(value, Measure):
        return value.si
    return value or None


def _row_problems(row: Row, specimen: Specimen, above_zero: list[str]) -> list[Problem]:
    """What a row says that cannot be: reversed dates, sizes of zero, a bar longer than its form."""
    problems = []
    if specimen.cast and specimen.tested and specimen.tested < specimen.cast:
        wrong = f"{specimen.mark} was tested on {specimen.tested}, before it was cast on {specimen.cast}"
        problems.append(Problem(row.place_of("tested"), "lab-dates", wrong, "correct one of the two dates"))
    for name in above_zero:
        if specimen.value(name) == 0:
            wrong = f"{specimen.mark} has a {name} of zero"
            problems.append(Problem(row.place_of(name), "lab-zero", wrong, "measure it, or leave the cell empty"))
    if specimen.form_length and specimen.dried_length and specimen.dried_length > specimen.form_length * (1 + 1e-9):
        wrong = f"{specimen.mark} dried to more than the length of its form"
        problems.append(Problem(row.place_of("dried_length"), "lab-swelled", wrong, "correct one of the two lengths"))
    if specimen.span and specimen.depth and specimen.kind == "rupture" and specimen.span > specimen.depth * (1 + 1e-9):
        wrong = f"{specimen.mark} has a span longer than the beam, whose length is its depth"
        problems.append(Problem(row.place_of("span"), "lab-span", wrong, "correct one of the two"))
    return problems


def _strength_problems(row: Row, specimen: Specimen, limits: LabLimits) -> list[Problem]:
    """A stated strength that load and measured sides do not bear out."""
    found = stated_beside_measured(specimen, limits.gravity)
    if found is None or found.share <= limits.strength_difference * (1 + 1e-9):
        return []
    wording = row.values["strength"]
    assert isinstance(wording, Measure)
    worked = unit(wording.unit).from_si(found.found)
    apart = (
        f"{100 * found.share:.3g} % apart where {100 * limits.strength_difference:g} % is the most"
        if found.found
        else "the load being zero"
    )
    gives = f"its load and sides give {worked:.4g} {wording.unit}, {apart}"
    wrong = f"{specimen.mark} states a strength of {wording.text}, but {gives}"
    advice = "find the slip in load, sides or strength; where the lab divides by another area, leave strength empty"
    return [Problem(row.place_of("strength"), "lab-strength", wrong, advice)]
