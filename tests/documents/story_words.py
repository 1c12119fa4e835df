"""The texts that a section of a document is made of, before it is laid out."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.documents.page.sheet import Sheet


def words_of(story: Sequence[object]) -> str:
    """The texts in the rows of each part."""
    rows = [row for part in story if isinstance(part, Sheet) for row in (*part.lead, *part._rows)]
    return " ".join(part.text for row in rows for cell in row.cells for part in cell.parts if hasattr(part, "text"))
