"""Where the cells of a row go in the structure of a document: into a row of a table, or as paragraphs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from compliance.documents.tagging.structure_tree import Element, Kind

if TYPE_CHECKING:
    from compliance.documents.page.placed_rows import PlacedRow

_SCOPE = "/Scope/Column"


@dataclass(slots=True)
class Slot:
    """Where the contents of a cell go: figures into `holder`, text into `text`, which is a paragraph in `holder` made
    for the first text where there is none."""

    holder: Element
    text: Element | None = None


def slots(canvas: Any, row: PlacedRow, table: Element | None = None, kind: Kind = "TD") -> list[Slot]:
    """Slots for the cells of `row`: a new row of `table`, without one the document itself. The lower part of a row that
    was cut goes on where the upper part went."""
    source, structure = row.source, canvas.structure
    if row.rest and canvas.row and canvas.row[0] is source:
        kept: list[Slot] = canvas.row[1]
        return kept
    if table is None:
        found = [Slot(structure.document) for _ in source.cells]
    else:
        line = structure.new("TR", table)
        cells = [structure.new(kind, line, _entries(kind, one.span)) for one in source.cells]
        found = [Slot(one, one) for one in cells]
    canvas.row = (source, found)
    return found


def _entries(kind: str, span: int) -> str:
    scope, across = _SCOPE if kind == "TH" else "", f"/ColSpan {span}" if span > 1 else ""
    return f"/A<</O/Table{scope}{across}>>" if scope or across else ""
