"""The shipped reference of rule sets that go together."""

from __future__ import annotations

from functools import cache

from pydantic import TypeAdapter, ValidationError

from compliance.facts.common.reference_values import ReferenceValueError
from compliance.model.reference_texts import Pack
from compliance.reading.reference_files.support_rules import read_reference


@cache
def read_packs() -> tuple[Pack, ...]:
    """Raises ProblemsFound where the file cannot be read, ReferenceValueError where it is not of this form."""
    try:
        return tuple(TypeAdapter(list[Pack]).validate_python(read_reference("packs").get("values")))
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(map(str, first["loc"]))
        raise ReferenceValueError(f"values.{where}: {first['msg']}") from None
