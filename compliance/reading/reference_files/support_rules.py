"""Shipped tables of reference values: coefficients and tables that facts are computed with."""

from __future__ import annotations

from compliance.facts.geometry.wall_plan import SupportRules
from compliance.files.shipped import shipped
from compliance.findings import Standing
from compliance.reading.yaml.placed import PlacedDict
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.units import measure


def read_reference(name: str) -> PlacedDict:
    """A shipped reference by its id. Raises ProblemsFound."""
    return read_yaml(shipped("rulesets") / "reference" / f"{name}.yaml", f"rulesets/reference/{name}.yaml")


def read_support_rules() -> SupportRules:
    """What counts as a lateral support."""
    reference = read_reference("lateral-supports")
    values = reference["values"]
    return SupportRules(
        measure(values["least_angle"], "angle").si,
        values["least_height_share"],
        values["least_length_share"],
        values["least_thickness_share"],
        Standing(reference["standing"]),
        reference["source"],
    )
