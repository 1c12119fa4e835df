"""How the headings of a table are matched with the columns of the lab: from a proposal, from a form, into an entry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, get_args

from compliance.desk.earth_forms import Fields, one_of, refuse_mark
from compliance.editing.file_edits import ValueEdit
from compliance.facts.common.fact import FieldPath
from compliance.model.materials import SpecimenKind
from compliance.model.project import Project
from compliance.reading.tables.proposed_columns import Numbered, propose
from compliance.record import record

KINDS: tuple[SpecimenKind, ...] = get_args(SpecimenKind)


@record
class TableMatch:
    """Rows are lines of the file as they were typed; `columns` are ours and `units` theirs by the index of a heading,
    `every` what is the same for all rows. `new_set` is the mark of a set to add, of the mix `new_mix`;
    `proposed_row` is the row of the headings that was proposed last."""

    kind: SpecimenKind
    sheet: str
    heading_row: str
    last_row: str
    dates: str
    decimal: str
    thousands: str
    columns: Mapping[int, str]
    units: Mapping[int, str]
    every: Mapping[str, str]
    new_set: str = ""
    new_mix: str = ""
    proposed_row: str = ""

    @property
    def chosen_line(self) -> int | None:
        """The row of the headings where a person named another than was proposed."""
        return self.line if self.heading_row != self.proposed_row else None

    @property
    def line(self) -> int | None:
        """The row of the headings as a number; None where none was typed."""
        return int(self.heading_row) if self.heading_row.isascii() and self.heading_row.isdecimal() else None


def proposed_match(
    kind: SpecimenKind, sheet: str, rows: Sequence[Numbered], heading_row: int | None, every: Mapping[str, str]
) -> TableMatch:
    """As far as the headings say it by themselves."""
    found = propose(kind, rows, heading_row)
    return TableMatch(
        kind,
        sheet,
        heading_row=str(found.heading_row),
        proposed_row=str(found.heading_row),
        last_row=str(found.last_row or ""),
        dates=found.dates or "",
        decimal=found.decimal,
        thousands=found.thousands,
        columns=found.columns,
        units=found.units,
        every=every,
    )


def match_of(fields: Fields) -> TableMatch:
    """As it was filled in."""
    kind = one_of(fields, "kind")
    return TableMatch(
        next((one for one in KINDS if one == kind), KINDS[0]),
        one_of(fields, "sheet"),
        heading_row=one_of(fields, "heading_row"),
        last_row=one_of(fields, "last_row"),
        dates=one_of(fields, "dates"),
        decimal=one_of(fields, "decimal"),
        thousands=one_of(fields, "thousands"),
        columns=_numbered(fields, "column."),
        units=_numbered(fields, "unit."),
        every=every_in(fields),
        new_set=one_of(fields, "new_set"),
        new_mix=one_of(fields, "new_mix"),
        proposed_row=one_of(fields, "proposed_row"),
    )


def every_in(fields: Fields) -> dict[str, str]:
    """What is the same for all rows, as it was filled in."""
    return {
        name.removeprefix("every."): text
        for name in fields
        if name.startswith("every.") and (text := one_of(fields, name))
    }


def _numbered(fields: Fields, before: str) -> dict[int, str]:
    found = {}
    for name in fields:
        number = name.removeprefix(before)
        if name.startswith(before) and number.isascii() and number.isdecimal() and (text := one_of(fields, name)):
            found[int(number)] = text
    return found


def lab_entry(match: TableMatch, file: str, rows: Sequence[Numbered]) -> dict[str, Any]:
    """What stands under `lab:` for a table in `file`."""
    line = match.line
    headings = next((cells for number, cells in rows if number == line), [])
    at = {index: headings[index].strip() for index in match.columns if index < len(headings)}
    entry: dict[str, Any] = {"file": file}
    entry |= {"sheet": match.sheet} if match.sheet else {}
    entry |= {"heading_row": line} if line else {}
    entry |= {"last_row": int(match.last_row)} if match.last_row.isascii() and match.last_row.isdecimal() else {}
    entry |= {"dates": match.dates} if match.dates else {}
    entry |= {"decimal": match.decimal} if match.decimal not in ("", "point") else {}
    entry |= {"thousands": match.thousands} if match.thousands else {}
    entry["columns"] = {match.columns[index]: heading for index, heading in at.items()}
    units = {match.columns[index]: match.units[index] for index in at if index in match.units}
    entry |= {"units": units} if units else {}
    every = dict(match.every) | ({"set": match.new_set} if match.new_set and "set" not in entry["columns"] else {})
    entry |= {"every_row": every} if every else {}
    return entry


def edits_of_match(match: TableMatch, file: str, rows: Sequence[Numbered], project: Project) -> list[ValueEdit]:
    """The entry of the table, after the set of its specimens where it is new. Raises EditRefusedError."""
    edits = []
    if match.new_set:
        refuse_mark("test_sets", match.new_set, project)
        edits.append(ValueEdit(("test_sets", match.new_set), {"kind": match.kind, "mix": match.new_mix}))
    entry = lab_entry(match, file, rows)
    path: FieldPath = ("lab", match.kind)
    if getattr(project.lab, match.kind) is not None:
        path, entry = ("lab", "more", len(project.lab.more)), {"kind": match.kind, **entry}
    return [*edits, ValueEdit(path, entry)]
