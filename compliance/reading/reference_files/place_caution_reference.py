"""The shipped reference of cautions that hold in one place or edition."""

from __future__ import annotations

from functools import cache

from pydantic import TypeAdapter

from compliance.model.reference_texts import PlaceCautions
from compliance.reading.reference_files.support_rules import as_form, read_reference


@cache
def read_place_cautions() -> PlaceCautions:
    """Raises ProblemsFound where the file cannot be read, ReferenceValueError where it is not of this form."""
    return place_cautions_from(read_reference("place-cautions").get("values"))


def place_cautions_from(values: object) -> PlaceCautions:
    """The reference from its values. Raises ReferenceValueError with the place of the first thing that is wrong."""
    return as_form(TypeAdapter(PlaceCautions), values)
