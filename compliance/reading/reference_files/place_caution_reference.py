"""The shipped reference of cautions that hold in one place or edition."""

from __future__ import annotations

from functools import cache

from pydantic import ValidationError

from compliance.facts.common.reference_values import ReferenceValueError
from compliance.model.reference_texts import PlaceCautions
from compliance.reading.reference_files.support_rules import read_reference


@cache
def read_place_cautions() -> PlaceCautions:
    """Raises ProblemsFound where the file cannot be read, ReferenceValueError where it is not of this form."""
    return place_cautions_from(read_reference("place-cautions").get("values"))


def place_cautions_from(values: object) -> PlaceCautions:
    """The reference from its values. Raises ReferenceValueError with the place of the first thing that is wrong."""
    try:
        return PlaceCautions.model_validate(values)
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(["values", *map(str, first["loc"])])
        raise ReferenceValueError(f"{where}: {first['msg']}") from None
