"""Everything that the facts of soils, mixes and specimens take from reference data, in one value."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.facts.doubts.plausible import Plausible
from compliance.facts.earth.earth_practice import EarthPractice
from compliance.facts.mixes.blend_target import Target
from compliance.facts.mixes.quantities import OrderingPractice
from compliance.facts.mixes.trial_ranking import TrialOrder
from compliance.facts.soil.field_tests import FieldTestPractice
from compliance.facts.soil.fractions import GrainSizes
from compliance.facts.soil.jar_test import JarPractice
from compliance.facts.soil.settling import Settling
from compliance.facts.soil.texture import TextureRules
from compliance.facts.specimens.dixon import DixonTable
from compliance.facts.specimens.outliers import Side
from compliance.record import record


@record
class LabPractice:
    """How far a stated strength may lie from load over measured sides, how far stated shares from 100 %, both as
    shares, and at what level and on which side a value is asked whether it stands apart."""

    strength_difference: float
    shares_sum: float
    outlier_level: float
    outlier_side: Side


@record
class MaterialPractice:
    """`targets` are the mixes aimed for by name; `most_buckets` the largest batch a blend is counted in."""

    settling: Settling
    sizes: GrainSizes
    jar: JarPractice
    texture: TextureRules
    field_tests: FieldTestPractice
    lab: LabPractice
    plausible: Plausible
    dixon: DixonTable
    trials: TrialOrder
    targets: Mapping[str, Target]
    ordering: OrderingPractice
    most_buckets: int
    earth: EarthPractice
