"""Wall density: the plan area of bracing walls along a direction over that of the building, the least of all ways."""

from __future__ import annotations

import math

from compliance.facts.bracing.solid_lengths import (
    Extent,
    Solid,
    bracing_walls,
    directions,
    extent,
    house_walls,
    solids_of,
    turned,
)
from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import IN_A_RING, ends_of_section
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Series, Symbol

walls_over_plan = equation(
    "Wall density", "sum(solid * thickness) / (along * across)", Symbol("", "share"),
    "from the plan; openings left out, walls set askew as long as they are along the direction",
    solid=Series("b", "length", "solid length"), thickness=Series("t", "thickness"),
    along=Symbol("L", "length", "building along the direction"), across=Symbol("B", "length", "building across it"),
)  # fmt: skip

EQUATIONS = (walls_over_plan,)


def wall_density(building: Building, project: Subject) -> Fact:
    """The least density of all directions in which bracing walls of the lowest story run, and of those square to them.

    The plan is the rectangle around the walls: of an L or a U that is more than its floor, on the safe side."""
    need = Needs(project)
    house, bracing = house_walls(building, need), bracing_walls(building, need)
    within = need.use(building.screening["parallel_within"])
    if need.lacks:
        return need.lacking
    lowest = [building.views[mark] for mark in bracing if (building.project.walls[mark].story or 1) == 1]
    straight = [view for view in lowest if not view.placed.stretch.ring]
    if not straight:
        need.lack(IN_A_RING if lowest else "no wall is counted on to brace")
        return need.lacking
    found = solids_of(building, [view.mark for view in straight])
    thick = {view.mark: min(ends_of_section(view.wall)) for view in straight}
    along = directions(found) or (0.0,)
    ways = [way for one in along for way in (one, (one + math.pi / 2) % math.pi)]
    around = [building.views[mark] for mark in house]
    each = [_density(found, thick, extent(around, way), within) for way in ways]
    return need.worked(min(each, key=float))


def _density(found: list[Solid], thick: dict[str, float], seen: Extent, within: float) -> Solved:
    part = [one for one in found if turned(one.panel.direction, seen.direction) <= within * (1 + 1e-9)]
    lengths = [one.length * math.cos(turned(one.panel.direction, seen.direction)) for one in part]
    return walls_over_plan(lengths or [0.0], [thick[one.wall] for one in part] or [0.0], seen.along, seen.across)
