"""The reference data of soils, mixes and specimens, read once for all projects of a run."""

from __future__ import annotations

from functools import cache

from compliance.facts.common.reference_values import Part
from compliance.facts.doubts.plausible import Plausible
from compliance.facts.earth.earth_practice import EarthPractice
from compliance.facts.mixes.blend_target import Target
from compliance.facts.mixes.quantities import OrderingPractice
from compliance.facts.mixes.trial_ranking import TrialOrder
from compliance.facts.soil.field_tests import FieldTestPractice
from compliance.facts.soil.fractions import GrainSizes
from compliance.facts.soil.jar_test import JarPractice
from compliance.facts.soil.settling import Settling
from compliance.facts.soil.soil_practice import LabPractice, MaterialPractice
from compliance.facts.soil.texture import TextureRules
from compliance.facts.specimens.dixon import dixon_table
from compliance.facts.specimens.outliers import Side
from compliance.reading.reference_files.support_rules import read_reference

_SIDES: dict[str, Side] = {"lowest": "lowest", "highest": "highest", "either": "either"}


@cache
def read_material_practice() -> MaterialPractice:
    """Raises ProblemsFound for a reference that cannot be read, ReferenceValueError for one that lacks a value."""
    settling = read_reference("settling")["values"]
    texture = TextureRules.from_values(read_reference("usda-texture")["values"])
    mixes = read_reference("mix-practice")["values"]
    return MaterialPractice(
        settling=Settling.from_values(settling),
        sizes=GrainSizes.from_values(settling, texture.sizes),
        jar=JarPractice.from_values(settling),
        texture=texture,
        field_tests=FieldTestPractice.from_values(read_reference("field-tests")["values"]),
        lab=_lab_practice(read_reference("lab-practice")["values"]),
        plausible=Plausible.from_values(read_reference("lab-plausible")["values"]),
        dixon=dixon_table(read_reference("dixon")),
        trials=TrialOrder.from_values(read_reference("trials")["values"]),
        targets={name: Target.from_values(mixes, name) for name in Part(mixes).part("targets")},
        ordering=OrderingPractice.from_values(mixes),
        most_buckets=int(Part(mixes).number("most_buckets")),
        earth=EarthPractice.from_values(mixes),
    )


def _lab_practice(values: object) -> LabPractice:
    root = Part(values)
    outliers = root.part("outliers")
    side = _SIDES.get(outliers.text("side"))
    if side is None:
        outliers.refuse("side", f"must be one of {', '.join(_SIDES)}")
    return LabPractice(
        root.measure("strength_difference", "share"),
        root.measure("shares_sum", "share"),
        outliers.number("level"),
        side,
    )
