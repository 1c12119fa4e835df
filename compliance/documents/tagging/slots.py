"""Where the cells of a row go in the structure of a document: into a row of a table, or as paragraphs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from compliance.documents.tagging.structure_tree import Element, Kind

if TYPE_CHECKING:
    from compliance.documents.page.placed_rows import PlacedRow

_SCOPES = {"TH": "/Scope/Column", "TD": ""}
_ROW = "/Scope/Row"


@dataclass(slots=True)
class Slot:
    """Where the contents of a cell go: figures into `holder`, text into `text`, which is a paragraph in `holder` made
    for the first text where there is none."""

    holder: Element
    text: Element | None = None


def slots(
    canvas: Any, row: PlacedRow, table: Element | None = None, kind: Kind = "TD", names_row: bool = False
) -> list[Slot]:
    """Slots for the cells of `row`: a new row of `table`, without one the document itself. `names_row`: its first cell
    is the heading of the row, as in a table whose columns have none. The lower part of a row that was cut goes on where
    the upper part went."""
    source, structure = row.source, canvas.structure
    if row.rest and canvas.row and canvas.row[0] is source:
        kept: list[Slot] = canvas.row[1]
        return kept
    if table is None:
        found = [Slot(structure.document) for _ in source.cells]
    else:
        line = structure.new("TR", table)
        cells = [
            structure.new("TH", line, _entries(_ROW, one.span))
            if names_row and index == 0
            else structure.new(kind, line, _entries(_SCOPES[kind], one.span))
            for index, one in enumerate(source.cells)
        ]
        found = [Slot(one, one) for one in cells]
    canvas.row = (source, found)
    return found


def _entries(scope: str, span: int) -> str:
    across = f"/ColSpan {span}" if span > 1 else ""
    return f"/A<</O/Table{scope}{across}>>" if scope or across else ""
