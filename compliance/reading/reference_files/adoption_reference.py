"""The shipped reference of which states adopt the cob appendix."""

from __future__ import annotations

from functools import cache

from pydantic import TypeAdapter

from compliance.model.reference_texts import Adoption
from compliance.reading.reference_files.support_rules import as_form, read_reference


@cache
def read_adoption() -> Adoption:
    """Raises ProblemsFound where the file cannot be read, ReferenceValueError where it is not of this form."""
    return adoption_from(read_reference("adoption").get("values"))


def adoption_from(values: object) -> Adoption:
    """The reference from its values. Raises ReferenceValueError with the place of the first thing that is wrong."""
    return as_form(TypeAdapter(Adoption), values)
