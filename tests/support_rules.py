"""What counts as a lateral support in tests, and all that meets each wall by it."""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.facts.geometry.plan.lateral_supports import RUNS_ON, find_stretches, on_wall
from compliance.facts.geometry.wall_plan import Support, SupportRules, WallLine
from compliance.findings import Standing
from compliance.model.walls import Buttress

RULES = SupportRules(
    least_angle=math.radians(48), least_projection_share=0.2, least_thickness_share=0.3, short_of_top=0.1,
    clear_share=0.5, joint_gap=0.025, near_gap=0.1, corner_share=2.5, round_share=0.06, standing=Standing.RECALLED,
    source="trial",
)  # fmt: skip


def find_supports(
    walls: Mapping[str, WallLine], buttresses: Mapping[str, Buttress] | None = None, rules: SupportRules = RULES
) -> dict[str, tuple[Support, ...]]:
    """For each wall all that meets it, but the walls it runs on into."""
    found = find_stretches(walls, buttresses or {}, rules)
    return {mark: tuple(one for one in on_wall(placed) if one.why_not != RUNS_ON) for mark, placed in found.items()}
