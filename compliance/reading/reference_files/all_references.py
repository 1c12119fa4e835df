"""All reference data of a check in one value."""

from __future__ import annotations

from compliance.model.project import Project
from compliance.reading.cross_checks.marks_and_shapes import shape_problems
from compliance.reading.cross_checks.structure_checks import structure_problems
from compliance.reading.reference_files.adoption_reference import read_adoption
from compliance.reading.reference_files.counter_reference import read_counter_questions
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.reading.reference_files.place_caution_reference import read_place_cautions
from compliance.reading.reference_files.support_rules import read_support_rules
from compliance.reading.yaml.placed import PlacedDict
from compliance.references import References


def read_references() -> References:
    """Raises ProblemsFound where a shipped file cannot be read."""
    return References(
        practice=read_material_practice(),
        supports=read_support_rules(),
        counter_questions=read_counter_questions,
        adoption=read_adoption,
        place_cautions=read_place_cautions,
        plan_is_possible=plan_is_possible,
        structure_is_possible=structure_is_possible,
    )


def plan_is_possible(project: Project) -> bool:
    """Whether walls have a line, and openings, buttresses and loads lie within their wall."""
    return not shape_problems(project, PlacedDict("", (0, 0)))


def structure_is_possible(project: Project) -> bool:
    """Whether what walls stand on and carry fits together."""
    return not any(structure_problems(project, PlacedDict("", (0, 0))))
