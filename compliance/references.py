"""The shipped reference data that a project is checked with."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from compliance.record import record

if TYPE_CHECKING:
    from compliance.facts.geometry.wall_plan import SupportRules
    from compliance.facts.soil.soil_practice import MaterialPractice
    from compliance.model.project import Project
    from compliance.model.reference_texts import Adoption, CounterSection, PlaceCautions


@record
class References:
    """`counter_questions`, `adoption` and `place_cautions` are read when a document asks; `plan_is_possible` and
    `structure_is_possible` tell whether a changed building still fits together, as the checks after reading do."""

    practice: MaterialPractice
    supports: SupportRules
    counter_questions: Callable[[], tuple[CounterSection, ...]]
    adoption: Callable[[], Adoption]
    place_cautions: Callable[[], PlaceCautions]
    plan_is_possible: Callable[[Project], bool]
    structure_is_possible: Callable[[Project], bool]
