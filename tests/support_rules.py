"""What counts as a lateral support in tests, all that meets each wall by it, and the facts of an opening among it."""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.facts.common.fact import Fact
from compliance.facts.geometry.opening_facts import opening_facts
from compliance.facts.geometry.openings import Hole, opened
from compliance.facts.geometry.plan.chains import Chain, Link
from compliance.facts.geometry.plan.lateral_supports import RUNS_ON, Placed, find_stretches, on_wall
from compliance.facts.geometry.plan.stretches import Stretch
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.geometry.wall_plan import Support, SupportRules, WallLine
from compliance.findings import Standing
from compliance.model.lines import Straight
from compliance.model.walls import Buttress, Wall

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


def facts_of_opening(
    wall: Wall, hole: Hole, height: float, length: float, supports: tuple[Support, ...], name: str = "A"
) -> dict[str, Fact]:
    """Of an opening of a straight wall W1 that is a stretch by itself, with what is said to meet it."""
    place = WallLine("W1", Straight((0.0, 0.0), (length, 0.0)), height, 0.4)
    link = Link(place, 0.0, False)
    stretch = Stretch(Chain((link,), False), supports, None, (0.4, 0.4))
    view = WallView(
        mark="W1", wall=wall, place=place, supports=supports, opened=opened(wall, length), rules=RULES,
        placed=Placed(stretch, link), pieces=("W1",), span=(0.0, length),
    )  # fmt: skip
    return opening_facts(("walls", "W1", "openings", name), wall.openings[name], hole, view)
