"""Shipped tables of reference values: coefficients and tables that facts are computed with."""

from __future__ import annotations

from typing import TypeVar

from pydantic import TypeAdapter, ValidationError

from compliance.facts.common.reference_values import ReferenceValueError
from compliance.facts.geometry.wall_plan import SupportRules
from compliance.files.shipped import shipped
from compliance.findings import Standing
from compliance.reading.yaml.placed import PlacedDict
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.steps import Source
from compliance.units import measure

Form = TypeVar("Form")


def read_reference(name: str) -> PlacedDict:
    """A shipped reference by its id. Raises ProblemsFound."""
    return read_yaml(shipped("rulesets") / "reference" / f"{name}.yaml", f"rulesets/reference/{name}.yaml")


def as_form(form: TypeAdapter[Form], values: object) -> Form:
    """The values of a reference. Raises ReferenceValueError with the place of the first thing that is wrong."""
    try:
        return form.validate_python(values)
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(["values", *map(str, first["loc"])])
        raise ReferenceValueError(f"{where}: {first['msg']}") from None


def read_support_rules() -> SupportRules:
    """What counts as a lateral support."""
    reference = read_reference("lateral-supports")
    values = reference["values"]
    short, joint, near = (measure(values[name], "length").si for name in ("short_of_top", "joint_gap", "near_gap"))
    return SupportRules(
        least_angle=measure(values["least_angle"], "angle").si,
        least_projection_share=values["least_projection_share"],
        least_thickness_share=values["least_thickness_share"],
        short_of_top=short,
        clear_share=values["clear_share"],
        joint_gap=joint,
        near_gap=near,
        corner_share=values["corner_share"],
        round_share=values["round_share"],
        standing=Standing(reference["standing"]),
        source=Source(reference["source"], Standing(reference["standing"]).wants_confirming),
    )
