"""The shipped reference of wall types in words and drawings."""

from __future__ import annotations

from functools import cache

from pydantic import TypeAdapter

from compliance.model.reference_texts import WallSketch
from compliance.reading.reference_files.support_rules import as_form, read_reference


@cache
def read_wall_sketches() -> tuple[WallSketch, ...]:
    """Raises ProblemsFound where the file cannot be read, ReferenceValueError where it is not of this form."""
    return tuple(as_form(TypeAdapter(list[WallSketch]), read_reference("wall-type-sketches").get("values")))
