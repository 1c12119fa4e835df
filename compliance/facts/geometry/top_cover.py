"""What keeps rain off the top of a wall."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, known
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject


def top_cover(building: Building, wall: Subject) -> Fact:
    """Of a wall that says nothing of it and that a roof must cover: the roof."""
    return known("roof")
