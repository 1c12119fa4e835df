"""Single loads on a wall, such as a ridge beam's: the pressure under the plate, and how it spreads on the way down."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, Columns
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.facts.loads.roof_beams import SingleLoad, single_loads
from compliance.facts.mechanics.sections import greatest_edge_pressure
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, positive
from compliance.steps import no_steps


@record
class SpreadRule:
    """How a single load spreads along its wall: to each side by the tangent of an angle, down to a share of the wall's
    height and no farther, and over its plate and so many thicknesses at the most."""

    tangent: float
    down_to: float
    thicknesses: float


def spread_rule(building: Building, need: Needs) -> SpreadRule:
    """The rule of the reference file screening."""
    names = ("point_spread", "point_spread_depth", "point_spread_thicknesses")
    angle, down, most = (need.use(building.screening[name]) for name in names)
    return SpreadRule(math.tan(angle), down, most)


@record
class SpreadLoad:
    """A single load at a level: the length of wall that shares it, and how far off the middle of it the load stands
    [m]."""

    length: float
    off: float
    lines: tuple[Solved, ...]


def spread_of(load: SingleLoad, column: Column, found: Columns, rule: SpreadRule, below: float) -> SpreadLoad:
    """How a load that stands on the column spreads `below` its plate [m]: not past the column's ends, nor halfway to
    the next single load. Cut on one side it stands off the middle of what shares it."""
    plate, thick = load.length or 0.0, found.profile.top
    side = spread_to_side(below, rule.down_to, found.profile.height, rule.tangent, rule.thicknesses, thick)
    others = [one.at for one in found.loads if one.at != load.at]
    left = max([column.left, *((one + load.at) / 2 for one in others if one < load.at)])
    right = min([column.left + column.width, *((one + load.at) / 2 for one in others if one > load.at)])
    inset = min(plate, right - left) / 2
    at = min(max(load.at, left + inset), right - inset)  # a plate that hangs over is taken as pushed back onto the wall
    first, last = max(at - plate / 2 - side, left), min(at + plate / 2 + side, right)
    shared = length_that_shares_load(last, first)
    return SpreadLoad(float(shared), abs(at - (first + last) / 2), (side, shared))


spread_to_side = equation(
    "Spread to each side", "min(min(below, down * height) * tangent, most * thickness / 2)",
    Symbol("s", "length", "spread to each side"), "masonry form, Taly, Design of Reinforced Masonry Structures, p. 223",
    below=Symbol("y", "length", "depth under the plate"), down=Symbol("c_h"), height=Symbol("h", "length"),
    tangent=Symbol("tan α"), most=Symbol("c_t"), thickness=Symbol("t", "thickness"),
)  # fmt: skip

length_that_shares_load = equation(
    "Length that shares the load", "last - first", Symbol("L_s", "length"),
    "cut at ends, at openings and halfway to the next load",
    last=Symbol("s₂", "length"), first=Symbol("s₁", "length"),
)  # fmt: skip


def spread_pressure(
    column: Column, found: Columns, rule: SpreadRule, *, below: float, depth: float, fading: float
) -> tuple[Solved, ...]:
    """The greatest pressure [Pa] of a single load that stands on the column, `below` [m] under its plate, where the
    section is `depth` [m] deep, last of its lines; none without one. Single loads share the length between them, so
    they never add up. `fading` is the share of the plate's eccentricity that is left at this level."""
    worst: tuple[Solved, ...] = ()
    for load in found.loads:
        if not column.left <= load.at <= column.left + column.width or load.full == 0:
            continue
        spread = spread_of(load, column=column, found=found, rule=rule, below=below)
        along = greatest_edge_pressure(load.full, spread.off, spread.length, depth)
        across = uneven_across.titled("Greatest pressure of the single load")(along, fading * (load.off or 0.0), depth)
        if not worst or across > worst[-1]:
            worst = *spread.lines, along, across
    return worst


uneven_across = equation(
    "Greatest pressure of the single load", "mean * (1 + 6 * off / depth)", Symbol("σ", "stress"), "statics",
    mean=Symbol("σ_1", "stress", "along the wall"), off=Symbol("e", "thickness", "off the middle of the wall"),
    depth=Symbol("d", "thickness"),
)  # fmt: skip


_NONE = "no single load is said to stand on the wall"


def greatest_load(building: Building, wall: Subject) -> Fact:
    """The heaviest single load on the wall [N]."""
    need = Needs(wall)
    loads = single_loads(building, need, wall.mark)
    if need.lacks:
        return need.lacking
    if not loads:
        return without_meaning(_NONE)
    heaviest = max(loads.values(), key=lambda one: one.full)
    found = single_load.titled(f"Single load {heaviest.name}")(heaviest.dead, heaviest.live, heaviest.snow)
    return need.known(float(found), lambda: (*heaviest.steps(), found.step()))


single_load = equation(
    "Single load", "dead + max(live, snow)", Symbol("P", "force"), "as described",
    dead=Symbol("D", "force", "dead"), live=Symbol("L_r", "force", "live"), snow=Symbol("S", "force", "snow"),
)  # fmt: skip

pressure_under_plate = equation(
    "Pressure under the plate", "load / (length * width) * (1 + 6 * off / width)", Symbol("σ", "stress"), "statics",
    load=Symbol("P", "force"), length=positive("c", "thickness", "along the wall"),
    width=positive("d", "thickness", "across the wall"), off=Symbol("e", "thickness", "off the middle"),
)  # fmt: skip

distance_to_edge = equation(
    "From the load to the nearest end or opening, over the length of its plate", "distance / plate", Symbol(""),
    "by definition", distance=Symbol("s", "length"), plate=positive("c", "thickness", "plate along the wall"),
)  # fmt: skip

EQUATIONS = (
    spread_to_side, length_that_shares_load, uneven_across, single_load, pressure_under_plate, distance_to_edge
)  # fmt: skip


def point_pressure(building: Building, wall: Subject) -> Fact:
    """The greatest pressure straight under the plate of a single load, its eccentricity counted [Pa]."""
    need = Needs(wall)
    loads = single_loads(building, need, wall.mark)
    if not need.lacks and not loads:
        return without_meaning(_NONE)
    plates = {mark: load.plate(need) for mark, load in loads.items()}
    offs = {mark: need.field(load.off, *load.path, "eccentricity") for mark, load in loads.items()}
    if need.lacks:
        return need.lacking
    _, top = ends_of_section(building.project.walls[wall.mark])

    def stress(mark: str) -> Solved:
        length, width = plates[mark]
        named = pressure_under_plate.titled(f"Pressure under the plate of {mark}")
        return named(loads[mark].full, length, min(width, top), offs[mark])

    return need.worked(max(map(stress, loads)))


def point_edge(building: Building, wall: Subject) -> Fact:
    """The least distance of a single load from an end of the wall, or from an opening's edge beside it, over the length
    of its plate. A load over an opening stands on its lintel and is judged there."""
    need = Needs(wall)
    loads = single_loads(building, need, wall.mark)
    if not need.lacks and not loads:
        return without_meaning(_NONE)
    plates = {mark: load.plate(need)[0] for mark, load in loads.items()}
    if need.lacks:
        return need.lacking
    view = building.views[wall.mark]
    ends = _free_ends(building, wall.mark)
    found = []
    for mark, load in loads.items():
        if any(hole.start < load.at < hole.end for hole in view.opened.holes):
            continue
        edges = [*ends, *(edge for hole in view.opened.holes for edge in (hole.start, hole.end))]
        if edges:
            nearest = min(abs(edge - load.at) for edge in edges)
            found.append(distance_to_edge.titled(f"From {mark} to the nearest end or opening, over its plate")(
                nearest, plates[mark]))  # fmt: skip
    if not found:
        return without_meaning("no single load stands on a length with an end or an opening")
    return need.worked(min(found))


def _free_ends(building: Building, wall: str) -> tuple[float, ...]:
    """Stations of the wall's own ends that no other wall meets [m]."""
    view = building.views[wall]
    stretch, length = view.placed.stretch, view.place.line.length
    own = {station: at for at, station in ((0.0, view.along(0.0)), (length, view.along(length)))}
    return tuple(at for station, at in own.items() if any(abs(station - one) <= 1e-6 for one in stretch.free_ends))


def point_off(building: Building, wall: Subject) -> Fact:
    """The greatest eccentricity of a single load, over the thickness of the wall's top."""
    need = Needs(wall)
    loads = single_loads(building, need, wall.mark)
    if not need.lacks and not loads:
        return without_meaning(_NONE)
    offs = [need.field(load.off, *load.path, "eccentricity") for load in loads.values()]
    if need.lacks:
        return need.lacking
    _, top = ends_of_section(building.project.walls[wall.mark])
    return need.known(max(offs) / top, no_steps)
