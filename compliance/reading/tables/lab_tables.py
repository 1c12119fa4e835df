"""The lab tables of a project folder into specimens: `lab/*.csv` under our headings, a laboratory's own by `lab:`."""

from __future__ import annotations

import os
from collections.abc import Mapping
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any

from compliance.files.safe_paths import inside
from compliance.model.lab import own_table
from compliance.model.lab_columns import COLUMNS
from compliance.model.materials import SpecimenKind
from compliance.model.project import Project
from compliance.model.specimens import FIELDS, Entry, Specimen
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import NO_FILES, decoded, read_bytes, read_text
from compliance.reading.tables.csv_cells import Value
from compliance.reading.tables.csv_heading import folded
from compliance.reading.tables.csv_table import MOST_BYTES, CsvCells, Row, csv_cells, read_csv_table
from compliance.reading.tables.lab_mapping import TableMapping, mapping
from compliance.reading.tables.table_ends import KnownTable, with_table_ends
from compliance.reading.tables.table_rows import MOST_ROWS, read_rows
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.refused import RefusedError
from compliance.units import Measure, unit

if TYPE_CHECKING:
    from compliance.reading.tables.xlsx_table import XlsxCells

WORKBOOKS = (".xlsx", ".xlsm")
TABLES = (".csv", ".txt")
_ALWAYS_TEXT = ("set", "mix", "batch", "note")
"""Fields of a specimen that are never None."""


def read_lab_tables(
    folder: Path, project: Project | None, tree: PlacedDict, new_files: Mapping[str, bytes] = NO_FILES
) -> tuple[list[Specimen], list[str], list[Problem]]:
    """All specimens, the names of the files read, and the problems and warnings found. A table of ours may be absent;
    without a sound `project` only those are read. `new_files` are read as if they lay in the folder."""
    specimens: list[Specimen] = []
    names: list[str] = []
    problems: list[Problem] = []
    for kind, columns in COLUMNS.items():
        theirs = project.lab.tables_of(kind) if project else []
        for path, table in theirs:
            assert project is not None
            made = mapping(kind, table=table, tree=tree, problems=problems, path=path)
            rows = _mapped_rows(folder, made=made, project=project, names=names, problems=problems, new_files=new_files)
            specimens += _specimens(kind, rows, problems)
        name = own_table(kind)
        if os.path.lexists(folder / name) and all(table.file != name for _, table in theirs):
            names.append(name)
            try:
                rows = read_csv_table(inside(folder, name), name, columns, problems)
            except ProblemsFound as found:
                problems += _with_ends_of_own(found.problems, kind=kind, name=name, folder=folder, project=project)
                continue
            except RefusedError as refused:
                problems.append(refused.at(Place(name)))
                continue
            specimens += _specimens(kind, rows, problems)
    return specimens, list(dict.fromkeys(names)), problems


def _mapped_rows(
    folder: Path, made: TableMapping, project: Project, names: list[str], problems: list[Problem],
    new_files: Mapping[str, bytes],
) -> list[Row]:  # fmt: skip
    """The rows of a laboratory's own table, under our column names; none where a problem stops it."""
    name, place = made.table.file, place_of(made.tree, ("lab", *made.path, "file"))
    found: list[Problem] = []
    numbered: list[tuple[int, list[str]]] = []
    try:
        path = inside(folder, name)
        if name not in new_files and not path.is_file():
            raise RefusedError("file-missing", f"there is no file {name!r} in the folder", "add it or correct the name")
        cells = _cells(path, made, new_files.get(name))
        names.append(name)
        problems += cells.comments
        numbered = [*islice(cells.rows, MOST_ROWS + 2), *cells.below]
        rows = read_rows(
            made.renamed(numbered, found),
            columns=made.columns,
            locate=made.places(cells.places),
            found=cells.found,
            style=made.style,
            shown=problems,
        )
    except RefusedError as refused:
        problems.append(refused.at(place))
        return []
    except ProblemsFound as stopped:
        follow = ("csv-column-missing", "csv-column-near") if found else ()
        all_found = found + [one for one in _distinct(stopped.problems) if one.code not in follow]
        problems += with_table_ends(all_found, _known(made, project, numbered))
        return []
    if found:
        found = with_table_ends(found, _known(made, project, numbered))
    problems += found
    return [] if found else [row for row in rows if _complete(row, made, project, problems)]


def _known(made: TableMapping, project: Project, rows: list[tuple[int, list[str]]]) -> KnownTable:
    headings = {folded(spec.name) for spec in made.columns.values()} | {
        folded(one) for one in made.table.columns.values()
    }
    entry = f"lab: {'.'.join(map(str, made.path))}:"
    first, last = made.heading_row or 1, made.last_row
    rows = [(line, cells) for line, cells in rows if line >= first and (last is None or line <= last)]
    return KnownTable(made.table.file, rows=rows, headings=headings, sets=project.test_sets, entry=entry)


def _with_ends_of_own(
    found: list[Problem], kind: SpecimenKind, name: str, folder: Path, project: Project | None
) -> list[Problem]:
    try:
        return with_table_ends(found, _known_own(kind, name, folder, project)) if project else found
    except ProblemsFound:  # its text cannot be taken apart; the problems found say so
        return found


def _known_own(kind: SpecimenKind, name: str, folder: Path, project: Project) -> KnownTable:
    text = read_text(inside(folder, name), name, "csv", MOST_BYTES)
    rows = list(islice(csv_cells(text, name).rows, MOST_ROWS + 2))
    headings = {folded(spec.name) for spec in COLUMNS[kind].values()}
    return KnownTable(
        name, rows=rows, headings=headings, sets=project.test_sets, entry=f"lab: {{{kind}: {{file: {name}, ...}}}}"
    )


def _cells(path: Path, made: TableMapping, data: bytes | None) -> CsvCells | XlsxCells:
    """Those of the file at `path`, or of `data` in its place. Raises RefusedError for a kind of file that is not read,
    ProblemsFound for one that cannot be."""
    name, table = made.table.file, made.table
    suffix = path.suffix.lower()
    if suffix in WORKBOOKS:
        from compliance.reading.tables.xlsx_table import xlsx_cells  # with zip and XML, which most checks need not load

        data = read_bytes(path, name, "xlsx", MOST_BYTES) if data is None else data
        return xlsx_cells(
            data, shown=name, sheet=table.sheet, first=made.heading_row, last=made.last_row, decimal=made.style.decimal
        )
    if suffix not in TABLES:
        known = ", ".join((*WORKBOOKS, *TABLES))
        raise RefusedError("lab-file-kind", f"{name!r} is no table that can be read", f"save it as one of {known}")
    if table.sheet is not None:
        raise RefusedError("lab-sheet", f"{name!r} has no sheets", "remove sheet:")
    text = read_text(path, name, "csv", MOST_BYTES) if data is None else decoded(data, name, "csv")
    return csv_cells(text, name, made.heading_row)


def _distinct(problems: list[Problem]) -> list[Problem]:
    """Of the problems at one place, those of the workbook itself: an error there reads as an empty cell, too."""
    own = {problem.place for problem in problems if problem.code in ("xlsx-formula", "xlsx-error")}
    return [one for one in problems if one.place not in own or one.code.startswith("xlsx-")]


def _complete(row: Row, made: TableMapping, project: Project, problems: list[Problem]) -> bool:
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


def _specimens(kind: SpecimenKind, rows: list[Row], problems: list[Problem]) -> list[Specimen]:
    own = [name for name in COLUMNS[kind] if name in FIELDS]
    more = [name for name in COLUMNS[kind] if name not in FIELDS and name != "specimen"]
    above_zero = [column.name for column in COLUMNS[kind].values() if column.above_zero]
    found = [_specimen(kind, row, own, more) for row in rows]
    for row, one in zip(rows, found, strict=True):
        problems += _row_problems(row, one, above_zero)
    return found


def _specimen(kind: SpecimenKind, row: Row, own: list[str], more: list[str]) -> Specimen:
    fields: dict[str, Any] = {name: _entry(row.values.get(name)) for name in own}
    rest = {name: entry for name in more if (entry := _entry(row.values.get(name))) not in (None, "")}
    fields |= {name: fields[name] or "" for name in _ALWAYS_TEXT if name in fields}
    return Specimen(
        kind=kind, mark=row.texts["specimen"], place=row.place, texts=row.texts, extra=row.extra,
        more=rest, rounded_to=_rounded_to(row), locate=row.place_of, **fields,
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


def _rounded_to(row: Row) -> float:
    """The step in Pa of the last digit of the strength as printed: 1 psi of 134 psi, 0.01 MPa of 0.35 MPa."""
    stated = row.values.get("strength")
    if not isinstance(stated, Measure):
        return 0.0
    number = stated.text.partition(" ")[0]
    return unit(stated.unit).factor * 10.0 ** -len(number.partition(".")[2])
