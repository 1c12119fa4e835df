"""The table a laboratory fills in: its columns are those of the lab tables, unit in brackets, so that it reads back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.lab_request.waiting_specimens import Planned, PlannedSet
from compliance.documents.page.form_fields import text_field
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Drawn, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.model.lab import own_table
from compliance.model.lab_columns import COLUMNS, ColumnSpec
from compliance.model.materials import SpecimenKind
from compliance.record import record
from compliance.units import Writer

_TALL = 19.0
_WIDTHS = {
    "set": 27.0, "specimen": 42.0, "mix": 27.0, "cast": 50.0, "tested": 50.0, "dried": 32.0, "shape": 36.0,
    "batch": 32.0, "note": 60.0, "loading": 40.0, "peak_load": 50.0, "strength": 48.0,
}  # fmt: skip
_OTHER = 40.0
_LABEL = "{:.6g}"
_COLUMNS: dict[SpecimenKind, str] = {
    "compression": "Width by depth is the loaded face (of a cylinder, width is the diameter), height stands along the "
    "load. ",
    "rupture": "Width lies across the beam, height along the load, depth is the length of the beam, span runs between "
    "the supports. ",
    "shrinkage": "Form length is that of the form inside, dried length that of the bar from end to end. ",
}
"""What the columns hold, as the reader of lab tables takes them."""


def headings(kind: SpecimenKind, writer: Writer) -> list[str]:
    """The heading of each column, as the reader of lab tables takes it: `width [in]`."""
    return [_heading(spec, writer) for spec in COLUMNS[kind].values()]


def _heading(spec: ColumnSpec, writer: Writer) -> str:
    unit = writer.unit_symbol(spec.what) if spec.kind is not None and spec.kind.si else ""
    return f"{spec.name} [{unit}]" if unit else spec.name


def known_cells(of: PlannedSet, one: Planned, writer: Writer) -> list[str]:
    """What is known of a specimen before the test, by column; empty where the laboratory fills in."""
    kind = of.test.kind
    row = one.row
    known = {"set": of.mark, "specimen": one.mark, "mix": of.test.mix}
    if row is not None:
        words = {"dried": row.dried, "shape": row.shape, "loading": row.loading, "batch": row.batch, "note": row.note}
        known |= {name: value for name, value in words.items() if value}
        known |= {"cast": row.cast.isoformat()} if row.cast else {}
        known |= {"tested": row.tested.isoformat()} if row.tested else {}
        for name, spec in COLUMNS[kind].items():
            value = getattr(row, name, None) if spec.kind is not None else None
            if isinstance(value, float):
                known[name] = _LABEL.format(writer.number(value, spec.what))
    return [known.get(name, "") for name in COLUMNS[kind]]


def results_sheet(kind: SpecimenKind, sets: Sequence[PlannedSet], writer: Writer, width: float) -> Sheet:
    """One row for each specimen of a kind of test."""
    specs = list(COLUMNS[kind].values())
    titles = headings(kind, writer)
    shares = [_WIDTHS.get(spec.name, _OTHER) for spec in specs]
    columns = [Column(width * share / sum(shares)) for share in shares]
    rows = [
        _row(specs, known_cells(of, one, writer), f"{of.mark}-{number}")
        for of in sets
        for number, one in enumerate(of.specimens, start=1)
    ]
    name = own_table(kind)
    words = (
        f"Type the rows into {name} under these very headings, or into a workbook that the project names under lab:. "
        f"Figures are plain decimals in the unit of their column, days are written 2026-05-14. "
        f"{_COLUMNS[kind]}{_choices(specs)}"
        "Leave empty what was not measured. No specimen is left out because it is weak: note what was seen."
    )
    lead = [*part(f"results-{kind}", f"Results: {kind}"), full_row(Words(words, theme.SMALL, after=4.0))]
    return Sheet(columns, rows, head=[head_row(*titles)], lead=lead, grid=True, below=14)


def _choices(specs: Sequence[ColumnSpec]) -> str:
    return "".join(f"{spec.name}: {', '.join(spec.choices)}. " for spec in specs if spec.choices)


def _row(specs: Sequence[ColumnSpec], known: Sequence[str], key: str) -> Row:
    cells = [
        cell(text, theme.CELL_BOLD if spec.name == "specimen" else theme.CELL)
        if text
        else Cell((Drawn(_TALL - 4, Lettered(_Blank(f"result-{key}-{spec.name}", f"{key}: {spec.name}").draw)),))
        for spec, text in zip(specs, known, strict=True)
    ]
    return Row(tuple(cells), air=(2.0, 2.0))


@record
class _Blank:
    """Room to write in, and a field to type in."""

    name: str
    tip: str

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        text_field(canvas, self.name, self.tip, (left - 3, top - _TALL + 4, left + width + 3, top))
