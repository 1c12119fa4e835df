"""Garden walls, which stand alone: factors against overturning at the foot of the earth and under the footing, and the
pressure that an overturning push leaves under the footing. Buttresses and returns are not counted."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.facts.loads.lateral_pressure import freestanding_share, seismic_dead_share
from compliance.facts.mechanics.footings import greatest_soil_pressure
from compliance.facts.mechanics.lateral.freestanding import (
    load_under_footing,
    moment_of_quake,
    moment_of_wind,
    resists_at_foot,
    resists_under_footing,
    under_footing_by_quake,
    under_footing_by_wind,
)
from compliance.facts.mechanics.lateral.rocking import pivot_inset, stability_factor
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import GRAVITY, Input, Symbol

_NOT = "the wall does not stand alone"


@record
class _Pushed:
    """What both actions share: the wall's weight along it, shares of dead load, where the forces act, the coefficient
    of the earthquake [-] and the wind [Pa]."""

    weight: Solved
    sure: tuple[Input, Input]
    reach: tuple[Input, Input]
    quake: Solved
    wind: float
    high: float


weight_along = equation(
    "Weight along the wall", "density * gravity * thickness * height + finish * height", Symbol("W", "line_load"),
    "mass × gravity", density=Symbol("ρ", "density"), thickness=Symbol("t_m", "thickness", "mean"),
    height=Symbol("h", "length"), finish=Symbol("w_f", "pressure", "finishes"), gravity=GRAVITY,
)  # fmt: skip

pressed_down = equation(
    "Load under the footing, the earthquake pressing down", "(1 + level * upward * sds) * (wall + stem + footing)",
    Symbol("N", "line_load"), "combinations for allowable stresses, ASCE 7", level=Symbol("c"), upward=Symbol("v"),
    sds=Symbol("S_DS"), wall=Symbol("W", "line_load"), stem=Symbol("W_s", "line_load"),
    footing=Symbol("W_f", "line_load"),
)  # fmt: skip

EQUATIONS = (weight_along, pressed_down)


def _pushed(building: Building, need: Needs) -> _Pushed | None:
    density, finish = need.number("wall.unit_weight"), need.number("wall.finish_weight")
    thick, high = need.number("wall.mean_thickness"), need.number("wall.height")
    wind, quake, share = (
        need.number("wall.wind_pressure"),
        freestanding_share(building, need),
        building.screening["dead_share"],
    )
    by_quake, by_wind = building.screening["free_quake_height"], building.screening["free_wind_height"]
    for one in (share, by_quake, by_wind):
        need.use(one)
    sure = seismic_dead_share(building, need)
    if need.lacks or quake is None or sure is None:
        return None
    weight = weight_along(density, thick, high, finish)
    return _Pushed(
        weight,
        sure=(share.given("k"), sure),
        reach=(by_wind.given("c_z"), by_quake.given("c_z")),
        quake=quake,
        wind=wind,
        high=high,
    )


def freestanding_overturning(building: Building, wall: Subject) -> Fact:
    """The least factor against overturning at the foot of the earth."""
    if building.project.walls[wall.mark].use != "garden":
        return without_meaning(_NOT)
    need = Needs(wall)
    pushed, strength = _pushed(building, need), need.number("mix.lowest_compression")
    if need.lacks or pushed is None:
        return need.lacking
    thick = ends_of_section(building.project.walls[wall.mark])[0]
    inset = pivot_inset(pushed.weight, strength)
    turns = (moment_of_wind(pushed.wind, pushed.reach[0], pushed.high),
             moment_of_quake(pushed.quake, pushed.weight, pushed.reach[1], pushed.high))  # fmt: skip
    found = [
        (stands := resists_at_foot(share, pushed.weight, thick, inset), turn, stability_factor(stands, turn))
        for share, turn in zip(pushed.sure, turns, strict=True)
    ]
    return need.worked(pushed.weight, inset, *min(found, key=lambda one: float(one[-1])))


@record
class _Footing:
    """What stands under the wall: weights along it [N/m] and sizes [m]."""

    stem: float
    footing: float
    tall: float
    deep: float
    wide: float


def _footing(need: Needs) -> _Footing:
    names = ("wall.stem_weight", "wall.footing_weight", "wall.stem_height", "footing.thickness", "footing.width")
    return _Footing(*(need.number(name) for name in names))


def _turns_under(pushed: _Pushed, under: _Footing) -> tuple[Solved, Solved]:
    sizes = pushed.reach[0], under.tall, under.deep
    wind = under_footing_by_wind(pushed.wind, pushed.high, *sizes)
    quake = under_footing_by_quake(
        coefficient=pushed.quake, wall=pushed.weight, reach=pushed.reach[1], height=pushed.high, tall=under.tall,
        deep=under.deep, stem=under.stem, footing=under.footing,
    )  # fmt: skip
    return wind, quake


def freestanding_footing(building: Building, wall: Subject) -> Fact:
    """The least factor against overturning under the footing."""
    if building.project.walls[wall.mark].use != "garden":
        return without_meaning(_NOT)
    need = Needs(wall)
    pushed, under = _pushed(building, need), _footing(need)
    if need.lacks or pushed is None:
        return need.lacking
    found = []
    for share, turn in zip(pushed.sure, _turns_under(pushed, under), strict=True):
        load = load_under_footing(share, pushed.weight, under.stem, under.footing)
        stands = resists_under_footing(load, under.wide)
        found.append((load, stands, turn, stability_factor(stands, turn)))
    return need.worked(pushed.weight, *min(found, key=lambda one: float(one[-1])))


def freestanding_soil(building: Building, wall: Subject) -> Fact:
    """The greatest pressure under the footing, with the least and with the greatest dead load [Pa]."""
    if building.project.walls[wall.mark].use != "garden":
        return without_meaning(_NOT)
    need = Needs(wall)
    pushed, under = _pushed(building, need), _footing(need)
    level, upward = building.screening["seismic_to_allowable"], building.screening["vertical_share"]
    sds = need.number_of(building.subject("site", "site").fact("site.sds"))
    if need.lacks or pushed is None:
        return need.lacking
    wind, quake = _turns_under(pushed, under)
    weights = pushed.weight, under.stem, under.footing
    cases = [
        (load_under_footing(pushed.sure[0], *weights), wind),
        (load_under_footing(1.0, *weights), wind),
        (load_under_footing(pushed.sure[1], *weights), quake),
        (pressed_down(level.given("c"), upward.given("v"), sds, *weights), quake),
    ]
    found = []
    for load, turn in cases:
        pressure = greatest_soil_pressure(load, turn / load if load > 0 else math.inf, under.wide)
        found.append((load, turn, pressure))
    worst = max(found, key=lambda one: float(one[-1]))
    return need.worked(pushed.weight, *worst)
