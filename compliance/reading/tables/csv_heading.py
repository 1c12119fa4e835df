"""The heading row of a table: which column holds what, and in which unit."""

from __future__ import annotations

import re
from collections.abc import Mapping

from compliance.model.lab_columns import ColumnSpec
from compliance.reading.tables.csv_cells import CellReader
from compliance.reading.tables.units_in_headings import known_spelling, unit_in_heading
from compliance.record import record
from compliance.refused import RefusedError, nearest, shortened
from compliance.units import NUMBER, SPELLINGS, Kind, Unit, symbol_of, unit

# How like a known name (difflib's ratio) an unknown heading is before it is taken for a misspelling. High enough
# that height does not pass for weight.
_MISSPELLED = 0.85
_HEADING = re.compile(r"(?P<name>[^\[\]]*)(?:\[(?P<unit>[^\[\]]*)\])?")


@record
class KnownColumn:
    """A column that the reader knows: its index in the row, from 0, and how its cells are read."""

    index: int
    reader: CellReader


@record
class Heading:
    """The columns of a table. `known` is by the key of the column; `extra` holds headings as they are written.

    `refused` are problems with the index of the heading they belong to; None: with the row as a whole.
    """

    width: int
    known: dict[str, KnownColumn]
    extra: tuple[tuple[str, int], ...]
    nameless: tuple[int, ...]
    refused: tuple[tuple[int | None, RefusedError], ...]


def read_heading(cells: list[str], columns: Mapping[str, ColumnSpec]) -> Heading:
    """Match the (trimmed) headings with the columns that are known. Capitals and blanks do not count.

    Codes of what is refused: `csv-heading`, `csv-column-twice`, `csv-column-missing`, `csv-column-near`, and
    those of `column_unit`.
    """
    keys = {folded(spec.name): key for key, spec in columns.items()}
    known: dict[str, KnownColumn] = {}
    extra: list[tuple[str, int]] = []
    refused: list[tuple[int | None, RefusedError]] = []
    seen: dict[str, int] = {}
    for index, cell in enumerate(cells):
        if not cell:
            continue
        try:
            name, written_unit = heading_parts(cell)
            key = keys.get(folded(name))
            _refuse_twice(seen, folded(name if key else cell), cell, index)
            if key is None:
                extra.append((cell, index))
            else:
                found_unit = column_unit(columns[key], written_unit)
                known[key] = KnownColumn(index, CellReader(columns[key], found_unit))
        except RefusedError as problem:
            refused.append((index, problem))
    absent = [spec for spec in columns.values() if folded(spec.name) not in seen]
    refused += _absent_problems(absent, extra)
    nameless = tuple(index for index, cell in enumerate(cells) if not cell)
    return Heading(len(cells), known=known, extra=tuple(extra), nameless=nameless, refused=tuple(refused))


def folded(name: str) -> str:
    """A heading for comparing: capitals, underscores and runs of blanks do not count."""
    return " ".join(name.replace("_", " ").casefold().split())


def heading_parts(cell: str) -> tuple[str, str | None]:
    """Name and unit of a heading; the unit is None where there are no square brackets. Raises RefusedError."""
    match = _HEADING.fullmatch(cell)
    if match is None or not match["name"].strip():
        advice = "write the name, then its unit once in square brackets, as in width [in]"
        raise RefusedError("csv-heading", f"the heading {shortened(cell)} is not a name with a unit", advice)
    return match["name"].strip(), None if match["unit"] is None else match["unit"].strip()


def column_unit(spec: ColumnSpec, written: str | None) -> Unit | None:
    """The unit of a column; None where it holds text, dates, words or plain numbers.

    Raises RefusedError: `csv-unit-unexpected`, `csv-unit-missing`, `csv-unit-unknown`, `csv-unit-dimension`.
    """
    kind = spec.kind
    if kind is None or not kind.si:
        if written is not None:
            what = "a plain number" if kind else f"a {spec.what}"
            wrong = f"the column {spec.name} holds {what} and has no unit"
            raise RefusedError("csv-unit-unexpected", wrong, f"write {spec.name} without square brackets")
        return None
    instead = f"write for example {spec.name} [{_usual(kind.us)}] or {spec.name} [{kind.si}]"
    if not written:
        raise RefusedError("csv-unit-missing", f"the column {spec.name} has no unit", instead)
    symbol = symbol_of(written, kind)
    if symbol is None:
        near = known_spelling(written, kind) or nearest(written, SPELLINGS)
        hint = f"did you mean {near}? " if near else ""
        raise RefusedError("csv-unit-unknown", f"the unit {shortened(written)} is not known", hint + instead)
    found = unit(symbol)
    if not _fits(found, kind):
        force = known_spelling(written, kind)
        hint = f"a load in {written} is one in {force}: write {spec.name} [{force}], or " if force != written else ""
        raise RefusedError("csv-unit-dimension", f"{written} is no unit for {kind.called}", hint + instead)
    return found


def _usual(symbol: str) -> str:
    return "ft" if symbol == "ft-in" else symbol


def _fits(found: Unit, kind: Kind) -> bool:
    """Angles and shares are both plain numbers by dimension: the percent sign tells them apart."""
    if found.dimension != kind.dimension:
        return False
    return found.dimension != NUMBER or (found.symbol == "%") == (kind.si == "%")


def _refuse_twice(seen: dict[str, int], name: str, cell: str, index: int) -> None:
    if name in seen:
        wrong = f"the heading {shortened(cell)} stands here again; it stood first in column {seen[name] + 1}"
        raise RefusedError("csv-column-twice", wrong, "keep one of the two, or give each a name of its own")
    seen[name] = index


def _absent_problems(absent: list[ColumnSpec], extra: list[tuple[str, int]]) -> list[tuple[int | None, RefusedError]]:
    """What a missing column means: an error where it is required, or where a heading looks like it misspelled."""
    problems: list[tuple[int | None, RefusedError]] = []
    headings = {heading_parts(cell)[0]: index for cell, index in extra}
    for spec in absent:
        near = nearest(spec.name, headings, 0.6 if spec.required else _MISSPELLED)
        if spec.required:
            hint = f"did you mean it by {near}? " if near else ""
            wrong = f"the column {spec.name} is missing"
            problems.append(
                (headings[near] if near else None, RefusedError("csv-column-missing", wrong, hint + _add(spec, near)))
            )
        elif near:
            wrong = f"the heading {shortened(near)} is not known, and {spec.name} is missing"
            advice = f"write {spec.name} if that is meant, otherwise a name less like it"
            problems.append((headings[near], RefusedError("csv-column-near", wrong, advice)))
    return problems


def _add(spec: ColumnSpec, near: str | None) -> str:
    """What to write; the unit is that of the heading that is there, where it names one."""
    kind = spec.kind
    if kind is None or not kind.si:
        return f"add the heading {spec.name}"
    written = unit_in_heading(near, spec) if near else None
    return f"write {spec.name} [{written}]" if written else f"add the heading {spec.name} [{_usual(kind.us)}]"
