"""Braced panels from the plan: the shortest of a bracing wall, its aspect ratio, and the panels of its line together.

A panel is a length of wall that is solid from bottom to top; a wall without openings is one panel. What shape panels
have to be, and how long they are together, stands in the tables of a code.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.facts.bracing.solid_lengths import (
    Line,
    Solid,
    bracing_lines,
    bracing_walls,
    chord,
    extent,
    house_walls,
    solids_of,
    turned,
)
from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import IN_A_RING, WallView
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given, Step

_PLAN = "from the plan"

shortest_solid = equation(
    "Shortest panel, solid from bottom to top", "min(panel)", Symbol("b", "length"), _PLAN,
    panel=Series("b", "length", "solid length"),
)  # fmt: skip

height_over_length = equation(
    "Aspect ratio of the shortest panel", "height / panel", Symbol("h/b"), "by definition",
    height=Symbol("h", "length"), panel=Symbol("b", "length"),
)  # fmt: skip

panels_together = equation(
    "Panels in the braced wall line together", "sum(panel)", Symbol("Σb", "length"),
    "from the plan, each as long as it is along the line", panel=Series("b", "length", "panel"),
)  # fmt: skip

EQUATIONS = (shortest_solid, height_over_length, panels_together)


def shortest_panel(building: Building, wall: Subject) -> Fact:
    """The shortest solid length of the wall, of a curved one along its chord; zero where nothing is solid [m]."""
    need = Needs(wall)
    found = _panels(building, building.views[wall.mark], need)
    if need.lacks:
        return need.lacking
    if len(found) < 2:
        length = found[0].length if found else 0.0
        result = Given("b", length, "length")
        only = Step(shortest_solid.title, formula="", given=(), result=result, source=_PLAN)
        return need.known(length, lambda: (only,))
    return need.solved(shortest_solid, [one.length for one in found])


def panel_aspect(building: Building, wall: Subject) -> Fact:
    """The height of the wall over the length of its shortest panel; infinite where nothing is solid."""
    need = Needs(wall)
    panel, height = need.number("wall.shortest_panel"), need.number("wall.height")
    if not need.lacks and panel <= 0:
        return need.known(math.inf, lambda: ())
    return need.solved(height_over_length, height, panel)


def line_panels(building: Building, wall: Subject) -> Fact:
    """The panels of all bracing walls in the wall's line together [m].

    In its line are those within an angle of its direction, whose middles lie within the greatest thickness of a wall
    of each other across it."""
    need = Needs(wall)
    view, marks = building.views[wall.mark], bracing_walls(building, need)
    within = need.use(building.screening["parallel_within"])
    house = house_walls(building, need)
    own = _panels(building, view, need)
    if need.lacks:
        return need.lacking
    if not own:
        return need.solved(panels_together, [0.0])
    direction = chord(view)[0]
    lines = building.cached(
        ("panel lines", direction.hex()),
        lambda: _lines_along(building, direction, house=house, bracing=marks, within=within),
    )
    of_wall = [one.parts for one in lines if any(solid.wall == view.mark for solid, _ in one.parts)]
    lengths = [one.length * math.cos(turned(one.panel.direction, direction)) for parts in of_wall for one, _ in parts]
    return need.solved(panels_together, lengths or [0.0])


def _lines_along(
    building: Building, direction: float, house: Sequence[str], bracing: Sequence[str], within: float
) -> tuple[Line, ...]:
    """The lines of panels along a direction [rad]; none where no wall of the house braces."""
    found = solids_of(building, bracing)
    if not found:
        return ()
    around = [building.views[mark] for mark in house]
    thick = max(one.place.thickness for one in around)
    return bracing_lines(found, extent(around, direction), within, thick)


def _panels(building: Building, view: WallView, need: Needs) -> list[Solid]:
    """The solid lengths of a wall; their stiffness is of no account here."""
    if view.placed.stretch.ring:
        need.lack(IN_A_RING)
    return solids_of(building, (view.mark,))
