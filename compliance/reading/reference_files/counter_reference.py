"""The questions of the counter sheet, kept as data so that they can be worded for one's own county."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, TypeAdapter

from compliance.model.reference_texts import CounterSection
from compliance.reading.reference_files.support_rules import as_form, read_reference

_NAME = "counter-questions"


_Sections = Annotated[list[CounterSection], Field(min_length=1)]


def read_counter_questions() -> tuple[CounterSection, ...]:
    """Raises ProblemsFound where the file cannot be read, ReferenceValueError where it is not of this form."""
    return tuple(as_form(TypeAdapter(_Sections), read_reference(_NAME).get("values")))
