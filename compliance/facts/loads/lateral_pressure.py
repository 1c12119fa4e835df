"""Wind and earthquake square to each wall, at the level of allowable stresses, and what dead load is left to stand."""

from __future__ import annotations

from functools import partial

from compliance.facts.common.fact import Fact, beyond_table
from compliance.facts.common.needs import Needs, once
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.lateral.freestanding import seismic_share
from compliance.facts.mechanics.lateral.out_of_plane import seismic_wall_load, service_load
from compliance.facts.site.wind import WindEdition, WindSite, pressure_at, pressure_steps
from compliance.facts.site.wind_actions import wind_edition, wind_site
from compliance.facts.site.wind_on_walls import END, PieceOfWall, wall_pressures
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import GRAVITY, Symbol
from compliance.steps import Given, Step

WIND, EARTHQUAKE = "wind", "earthquake"


def wind_pressure(building: Building, wall: Subject) -> Fact:
    """Wind square to the wall, the worse of both ways, at the level of allowable stresses [Pa].

    Outside walls as components, in the zone of a corner; garden walls as walls that stand alone; inside walls the
    least pressure of inside walls.
    """
    need = Needs(wall)
    use = need.field(building.project.walls[wall.mark].use, "walls", wall.mark, "use")
    if need.lacks:
        return need.lacking
    if use == "interior":
        inside = building.screening["inside_pressure"]
        value = need.use(inside)
        step = Step(
            "Least pressure on an inside wall", formula="", given=(), result=inside.given("w"), source=inside.source
        )
        return need.known(value, lambda: (step,))
    height, length = need.number("wall.height"), need.number("wall.length")
    edition, wind = wind_edition(building, need), wind_site(building, need)
    if use == "garden":
        if need.lacks or edition is None or wind is None:
            return need.lacking
        return _alone(building, need=need, height=height, length=length, wind=wind, edition=edition)
    top = need.number("project.building_height")
    enclosure = str(need.of(building.subject("site", "site").fact("site.enclosure")))
    if need.lacks or edition is None or wind is None:
        return need.lacking
    c = building.tables.walls
    need.rest_on(c.standing)
    area = area_of_strip.sourced(c.source)(height, c.width_over_span)
    found = wall_pressures(PieceOfWall(top, area, END, enclosure), wind, edition, c)
    if found.inward is None or found.outward is None:
        return beyond_table(found.reason)
    allowable = service_load.sourced(edition.source)(max(found.inward, -found.outward), edition.to_allowable)
    return need.known(float(allowable), lambda: (area.step(), *found.steps, allowable.step()))


area_of_strip = equation(
    "Effective wind area", "height ** 2 / over",
    Symbol("A", "area", "effective wind area of a strip of the wall's height"), "",
    height=Symbol("h", "length"), over=Symbol("k"),
)  # fmt: skip

wind_on_free_wall = equation(
    "Wind on a wall that stands alone", "level * pressure * gust * coefficient", Symbol("w", "pressure"), "",
    level=Symbol("c", "ratio", "to allowable stresses"), pressure=Symbol("q", "pressure", "velocity pressure"),
    gust=Symbol("G", "ratio", "gust factor"), coefficient=Symbol("C_f"),
)  # fmt: skip


def _alone(building: Building, need: Needs, height: float, length: float, wind: WindSite, edition: WindEdition) -> Fact:
    table, gust = building.screening.free_wall, building.tables.building.gust
    need.rest_on(table.standing)
    q = pressure_at(height, wind, edition, False)
    says = f"force coefficient, length over height {length / height:.2f}"
    factor = Given("C_f", table.at(length / height), "ratio", says)
    found = wind_on_free_wall.sourced(table.source)(edition.to_allowable, q, gust, factor)
    return need.known(float(found), lambda: (*pressure_steps(height, wind, edition, False), found.step()))


weight_of_face = equation(
    "Weight of the wall's face", "density * gravity * thickness + finish", Symbol("W", "pressure"), "mass × gravity",
    density=Symbol("ρ", "density"), thickness=Symbol("t", "thickness", "mean thickness"),
    finish=Symbol("w_f", "pressure", "finishes"), gravity=GRAVITY,
)  # fmt: skip


def face_weight(building: Building, wall: Subject) -> Fact:
    """Weight of the wall for each area of its face, finishes and all [Pa]."""
    need = Needs(wall)
    density, finish = need.number("wall.unit_weight"), need.number("wall.finish_weight")
    thick = need.number("wall.mean_thickness")
    return need.solved(weight_of_face, density, thick, finish)


def freestanding_share(building: Building, need: Needs) -> Solved | None:
    """The seismic coefficient of a wall that stands alone, at the level of allowable stresses; None where a value
    lacks."""
    level, response, least, floor = (building.screening[name] for name in _FREE)
    for one in (level, response, least, floor):
        need.use(one)
    sds, importance = need.number("site.sds"), need.number("site.importance")
    if need.lacks:
        return None
    return seismic_share.sourced(response.source)(
        level.given("c"), sds, importance, response.given("R"), least.given("c_1"), floor.given("c_0")
    )


_FREE = ("seismic_to_allowable", "free_response", "free_least", "free_floor")

even_pressure = equation(
    "Even pressure that overturns as much", "2 * reach * coefficient * weight", Symbol("w", "pressure"),
    "statics; the force of a wall that stands alone grows with height", reach=Symbol("c_z"),
    coefficient=Symbol("c_E"), weight=Symbol("W", "pressure", "weight of the wall's face"),
)  # fmt: skip


def _seismic_alone(building: Building, need: Needs) -> Fact:
    weight, share = need.number("wall.face_weight"), freestanding_share(building, need)
    reach = building.screening["free_quake_height"]
    need.use(reach)
    if need.lacks or share is None:
        return need.lacking
    return need.worked(share, even_pressure(reach.given("c_z"), share, weight))


def seismic_pressure(building: Building, wall: Subject) -> Fact:
    """Earthquake square to the wall at the level of allowable stresses [Pa]; a garden wall is a structure of its
    own."""
    need = Needs(wall)
    if building.project.walls[wall.mark].use == "garden":
        return _seismic_alone(building, need)
    sds, importance, weight = (need.number(name) for name in ("site.sds", "site.importance", "wall.face_weight"))
    to_allowable = building.screening["seismic_to_allowable"]
    factor, least, level = (need.use(one) for one in (building.screening["wall_factor"],
                                                      building.screening["wall_least"], to_allowable))  # fmt: skip
    if need.lacks:
        return need.lacking
    strength = seismic_wall_load(factor, sds, importance, weight, least)
    return need.worked(strength, service_load.sourced(to_allowable.source)(strength, level))


greater_pressure = equation(
    "Governs square to the wall", "max(wind, quake)", Symbol("w", "pressure"), "the greater of the two",
    wind=Symbol("w_W", "pressure", WIND), quake=Symbol("w_E", "pressure", EARTHQUAKE),
)  # fmt: skip


def lateral_pressure(building: Building, wall: Subject) -> Fact:
    """The greater of wind and earthquake square to the wall [Pa]."""
    need = Needs(wall)
    wind, quake = need.number("wall.wind_pressure"), need.number("wall.seismic_pressure")
    says = f"Governs square to the wall: {WIND if wind >= quake else EARTHQUAKE}"
    return need.solved(greater_pressure.titled(says), wind, quake)


@record
class Action:
    """One of the two: its pressure [Pa], the share of dead load that stands with it, and the lift on the wall's top
    along its length [N/m]."""

    name: str
    pressure: float
    dead_share: float
    lift: float
    step: Step


def actions(building: Building, need: Needs) -> tuple[Action, ...]:
    """Both actions on the wall that `need` is about; empty where a value lacks. The upward part of an earthquake takes
    from the dead load."""
    wind, quake = need.number("wall.wind_pressure"), need.number("wall.seismic_pressure")
    share, lift = need.use(building.screening["dead_share"]), need.number("wall.lift")
    quake_share = seismic_dead_share(building, need)
    if need.lacks or quake_share is None:
        return ()
    return (
        Action(WIND, pressure=wind, dead_share=share, lift=lift, step=wind_dead_share_step(building)),
        Action(EARTHQUAKE, pressure=quake, dead_share=quake_share, lift=0.0, step=quake_share.step()),
    )


_SURE = "Share of dead load sure to be there with"


def wind_dead_share_step(building: Building) -> Step:
    share = building.screening["dead_share"]
    return Step(f"{_SURE} {WIND}", formula="", given=(), result=share.given("k"), source=share.source)


sure_in_earthquake = equation(
    f"{_SURE} {EARTHQUAKE}", "max(share - level * upward * sds, 0)", Symbol("k"), "",
    share=Symbol("k_0"), level=Symbol("c"), upward=Symbol("v"), sds=Symbol("S_DS"),
)  # fmt: skip


def seismic_dead_share(building: Building, need: Needs) -> Solved | None:
    """0.6 less the upward part of the earthquake, not below zero (ASCE 7 sections 2.4.1 and 12.4.2.2); None where a
    value lacks."""
    site = building.subject("site", "site")
    return once(building, need, key=("sure in earthquake",), subject=site, work=partial(_sure_in_earthquake, building))


def _sure_in_earthquake(building: Building, need: Needs) -> Solved | None:
    share, level, upward = (building.screening[name] for name in _SHARES)
    for one in (share, level, upward):
        need.use(one)
    sds = need.number("site.sds")
    if need.lacks:
        return None
    return sure_in_earthquake.sourced(upward.source)(share.given("k_0"), level.given("c"), upward.given("v"), sds)


_SHARES = ("dead_share", "seismic_to_allowable", "vertical_share")

EQUATIONS = (area_of_strip, wind_on_free_wall, weight_of_face, greater_pressure, sure_in_earthquake, even_pressure)
