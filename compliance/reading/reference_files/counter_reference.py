"""The questions of the counter sheet, kept as data so that they can be worded for one's own county."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, TypeAdapter, ValidationError

from compliance.facts.common.reference_values import ReferenceValueError
from compliance.model.reference_texts import CounterSection
from compliance.reading.reference_files.support_rules import read_reference

_NAME = "counter-questions"


_Sections = Annotated[list[CounterSection], Field(min_length=1)]


def read_counter_questions() -> tuple[CounterSection, ...]:
    """Raises ProblemsFound where the file cannot be read, ReferenceValueError where it is not of this form."""
    reference = read_reference(_NAME)
    try:
        return tuple(TypeAdapter(_Sections).validate_python(reference.get("values")))
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(map(str, first["loc"]))
        raise ReferenceValueError(f"values.{where}: {first['msg']}") from None
