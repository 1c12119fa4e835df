"""The shipped reference of rule sets that go together."""

from __future__ import annotations

from functools import cache

from pydantic import TypeAdapter

from compliance.model.reference_texts import Pack
from compliance.reading.reference_files.support_rules import as_form, read_reference


@cache
def read_packs() -> tuple[Pack, ...]:
    """Raises ProblemsFound where the file cannot be read, ReferenceValueError where it is not of this form."""
    return tuple(as_form(TypeAdapter(list[Pack]), read_reference("packs").get("values")))
