"""Single loads on a wall, such as a ridge beam's: the pressure under the plate, and how it spreads on the way down."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, known, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, full_force
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.facts.mechanics.bearing import bearing_stress, bearing_stress_step, spread_length, spread_steps
from compliance.model.walls import PointLoad, Wall
from compliance.steps import Given, Step


def plate_of(need: Needs, wall: str, mark: str, load: PointLoad) -> tuple[float, float]:
    """Length along and width across the wall of the plate under a single load [m]."""
    return (
        need.field(si(load.length), "walls", wall, "loads", mark, "length"),
        need.field(si(load.width), "walls", wall, "loads", mark, "width"),
    )


def spread_pressure(
    wall: Wall, column: Column, below: float, depth: float, angle: float
) -> tuple[float, tuple[Step, ...]] | None:
    """The greatest pressure [Pa] of a single load that stands on the column, `below` [m] under its plate, where the
    section is `depth` [m] deep; None without one. Single loads share the length between them, so they never add up."""
    worst: tuple[float, tuple[Step, ...]] | None = None
    stations = sorted(one.at.si for one in wall.loads.values())
    for load in wall.loads.values():
        at, length, force = load.at.si, si(load.length) or 0.0, full_force(load)
        if not column.left <= at <= column.left + column.width or force == 0:
            continue
        left, right = _rooms(at, length, column, stations)
        stress = force / (depth * spread_length(length, below, angle, left, right))
        if worst is None or stress > worst[0]:
            worst = stress, spread_steps(force, length, below, angle, left, right, depth)
    return worst


def _rooms(at: float, length: float, column: Column, stations: list[float]) -> tuple[float, float]:
    """Room on either side of a plate: to the column's end or halfway to the next single load [m]."""
    before = max((s for s in stations if s < at), default=-math.inf)
    after = min((s for s in stations if s > at), default=math.inf)
    left = max(column.left, (before + at) / 2)
    right = min(column.left + column.width, (after + at) / 2)
    return max(at - length / 2 - left, 0.0), max(right - at - length / 2, 0.0)


def greatest_load(building: Building, wall: Subject) -> Fact:
    """The heaviest single load on the wall [N]."""
    loads = building.project.walls[wall.mark].loads
    if not loads:
        return without_meaning("no single load is said to stand on the wall")
    heaviest = max(loads, key=lambda mark: full_force(loads[mark]))
    load, value = loads[heaviest], full_force(loads[heaviest])
    given = (Given("D", load.dead.si, "force", "dead"), Given("L_r", load.live.si, "force", "live"),
             Given("S", load.snow.si, "force", "snow"))  # fmt: skip
    step = Step(f"Single load {heaviest}", "D + max(L_r, S)", given, Given("P", value, "force"), "as described")
    return known(value, lambda: (step,))


def point_pressure(building: Building, wall: Subject) -> Fact:
    """The greatest pressure straight under the plate of a single load [Pa]."""
    loads = building.project.walls[wall.mark].loads
    if not loads:
        return without_meaning("no single load is said to stand on the wall")
    need = Needs(wall)
    peak = need.use(building.screening["point_peak"])
    plates = {mark: plate_of(need, wall.mark, mark, load) for mark, load in loads.items()}
    if need.lacks:
        return need.lacking
    _, top = ends_of_section(building.project.walls[wall.mark])

    def stress(mark: str) -> float:
        length, width = plates[mark]
        return bearing_stress(full_force(loads[mark]), length, min(width, top), peak)

    worst = max(loads, key=stress)
    length, width = plates[worst]
    says = f"Pressure under the plate of {worst}"
    step = bearing_stress_step(full_force(loads[worst]), length, min(width, top), peak, says)
    return need.known(stress(worst), lambda: (step,))
