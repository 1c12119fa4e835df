"""Closed rings of wall: what their curve holds is no matter for a screening."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, known
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.steps import Given, Step


def closed_rings(building: Building, project: Subject) -> Fact:
    """How many stretches of wall are closed and round, each said with its radius, height and thickness."""
    found = {view.placed.stretch.marks: view for view in building.views.values() if view.placed.stretch.ring}

    def worked() -> tuple[Step, ...]:
        steps = []
        for marks, view in found.items():
            ring = view.placed.stretch.ring
            assert ring is not None
            given = (
                Given("h", view.place.height, "length", "height"),
                Given("t", min(ends_of_section(view.wall)), "thickness", "thickness"),
            )
            says = f"{', '.join(marks)} make a closed ring, mean radius of its center line"
            steps.append(
                Step(says, formula="", given=given, result=Given("R", ring.radius, "length"), source="from the plan")
            )
        return (
            *steps,
            Step(
                "Closed rings of wall",
                formula="",
                given=(),
                result=Given("", float(len(found)), "count"),
                source="from the plan",
            ),
        )

    return known(float(len(found)), worked, next(iter(building.views.values())).rules.standing)
