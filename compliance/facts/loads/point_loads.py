"""Single loads on a wall, such as a ridge beam's: the pressure under the plate, and how it spreads on the way down."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, known, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, full_force
from compliance.facts.geometry.plan.runs import piece_of
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.facts.mechanics.bearing import bearing_stress, mean_pressure, spread
from compliance.model.walls import PointLoad, Wall
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol


def plate_of(need: Needs, wall: str, mark: str, load: PointLoad) -> tuple[float, float]:
    """Length along and width across the wall of the plate under a single load [m]."""
    piece, own = piece_of(wall, mark)
    return (
        need.field(si(load.length), "walls", piece, "loads", own, "length"),
        need.field(si(load.width), "walls", piece, "loads", own, "width"),
    )


def spread_pressure(wall: Wall, column: Column, below: float, depth: float, angle: float) -> tuple[Solved, ...]:
    """The greatest mean pressure [Pa] of a single load that stands on the column, `below` [m] under its plate, where
    the section is `depth` [m] deep, last of its lines; none without one. Single loads share the length between them, so
    they never add up."""
    worst: tuple[Solved, ...] = ()
    stations = sorted(one.at.si for one in wall.loads.values())
    for load in wall.loads.values():
        at, length, force = load.at.si, si(load.length) or 0.0, full_force(load)
        if not column.left <= at <= column.left + column.width or force == 0:
            continue
        side, shared = spread(length, below, angle, *_rooms(at, length, column, stations))
        pressure = mean_pressure(force, depth, shared)
        if not worst or pressure > worst[-1]:
            worst = side, shared, pressure
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
    loads = building.views[wall.mark].wall.loads
    if not loads:
        return without_meaning("no single load is said to stand on the wall")
    heaviest = max(loads, key=lambda mark: full_force(loads[mark]))
    load = loads[heaviest]
    found = single_load.titled(f"Single load {heaviest}")(load.dead.si, load.live.si, load.snow.si)
    return known(float(found), found.steps)


single_load = equation(
    "Single load", "dead + max(live, snow)", Symbol("P", "force"), "as described",
    dead=Symbol("D", "force", "dead"), live=Symbol("L_r", "force", "live"), snow=Symbol("S", "force", "snow"),
)  # fmt: skip

EQUATIONS = (single_load,)


def point_pressure(building: Building, wall: Subject) -> Fact:
    """The greatest pressure straight under the plate of a single load [Pa]."""
    loads = building.views[wall.mark].wall.loads
    if not loads:
        return without_meaning("no single load is said to stand on the wall")
    need = Needs(wall)
    peak = need.use(building.screening["point_peak"])
    plates = {mark: plate_of(need, wall.mark, mark, load) for mark, load in loads.items()}
    if need.lacks:
        return need.lacking
    _, top = ends_of_section(building.project.walls[wall.mark])

    def stress(mark: str) -> Solved:
        length, width = plates[mark]
        says = f"Pressure under the plate of {mark}"
        return bearing_stress(full_force(loads[mark]), length, min(width, top), peak, says)

    return need.worked(max(map(stress, loads)))
