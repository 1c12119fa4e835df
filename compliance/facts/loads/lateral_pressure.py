"""Wind and earthquake square to each wall, at the level of allowable stresses, and what dead load is left to stand."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.gravity import GIVEN_GRAVITY, STANDARD_GRAVITY
from compliance.facts.mechanics.lateral.out_of_plane import seismic_wall_load, seismic_wall_load_step, service_load_step
from compliance.facts.site.wind import WindEdition, WindSite, pressure_at, pressure_steps
from compliance.facts.site.wind_actions import wind_edition, wind_site
from compliance.facts.site.wind_on_walls import END, PieceOfWall, effective_area, wall_pressures
from compliance.record import record
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
        step = Step("Least pressure on an inside wall", "", (), inside.given("w"), inside.source)
        return need.known(value, lambda: (step,))
    height, length = need.number("wall.height"), need.number("wall.length")
    edition, wind = wind_edition(building, need), wind_site(building, need)
    if use == "garden":
        if need.lacks or edition is None or wind is None:
            return need.lacking
        return _alone(building, need, height, length, wind, edition)
    top = need.number("project.building_height")
    enclosure = need.field(building.project.site.enclosure, "site", "enclosure")
    if need.lacks or edition is None or wind is None:
        return need.lacking
    c = building.tables.walls
    need.rest_on(c.standing)
    area = effective_area(height, 0.0, c)
    found = wall_pressures(PieceOfWall(top, area, END, enclosure), wind, edition, c)
    if found.inward is None or found.outward is None:
        step = Step(found.reason, "", (), Given("h", top, "length"))
        return need.known(math.inf, lambda: (step,))
    worse = max(found.inward, -found.outward)
    value = edition.to_allowable * worse

    def worked() -> tuple[Step, ...]:
        reach = Given("A", area, "area", "effective wind area of a strip of the wall's height")
        strip = Step("Effective wind area", "h² / k", (Given("h", height, "length"), Given("k", c.width_over_span)),
                     reach, c.source)  # fmt: skip
        return (strip, *found.steps, service_load_step(worse, edition.to_allowable, edition.source))

    return need.known(value, worked)


def _alone(building: Building, need: Needs, height: float, length: float, wind: WindSite, edition: WindEdition) -> Fact:
    table, gust = building.screening.free_wall, building.tables.building.gust
    need.rest_on(table.standing)
    q, factor = pressure_at(height, wind, edition, False), table.at(length / height)
    value = edition.to_allowable * q * gust * factor
    given = (
        Given("c", edition.to_allowable, "ratio", "to allowable stresses"),
        Given("q", q, "pressure", "velocity pressure"),
        Given("G", gust, "ratio", "gust factor"),
        Given("C_f", factor, "ratio", f"force coefficient, length over height {length / height:.2f}"),
    )
    step = Step(
        "Wind on a wall that stands alone", "c × q × G × C_f", given, Given("w", value, "pressure"), table.source
    )
    return need.known(value, lambda: (*pressure_steps(height, wind, edition, False), step))


def face_weight(building: Building, wall: Subject) -> Fact:
    """Weight of the wall for each area of its face, finishes and all [Pa]."""
    need = Needs(wall)
    density, finish = need.number("wall.unit_weight"), need.number("wall.finish_weight")
    thick = need.number("wall.mean_thickness")
    if need.lacks:
        return need.lacking
    value = density * STANDARD_GRAVITY * thick + finish
    given = (Given("ρ", density, "density"), GIVEN_GRAVITY, Given("t", thick, "thickness", "mean thickness"),
             Given("w_f", finish, "pressure", "finishes"))  # fmt: skip
    step = Step("Weight of the wall's face", "ρ × g × t + w_f", given, Given("W", value, "pressure"), "mass × gravity")
    return need.known(value, lambda: (step,))


def seismic_pressure(building: Building, wall: Subject) -> Fact:
    """Earthquake square to the wall at the level of allowable stresses [Pa]."""
    need = Needs(wall)
    sds, importance, weight = (need.number(name) for name in ("site.sds", "site.importance", "wall.face_weight"))
    to_allowable = building.screening["seismic_to_allowable"]
    factor, least, level = (need.use(one) for one in (building.screening["wall_factor"],
                                                      building.screening["wall_least"], to_allowable))  # fmt: skip
    if need.lacks:
        return need.lacking
    strength = seismic_wall_load(factor, sds, importance, weight, least)

    def worked() -> tuple[Step, ...]:
        first = seismic_wall_load_step(factor, sds, importance, weight, least)
        return (first, service_load_step(strength, level, to_allowable.source))

    return need.known(level * strength, worked)


def lateral_pressure(building: Building, wall: Subject) -> Fact:
    """The greater of wind and earthquake square to the wall [Pa]."""
    need = Needs(wall)
    wind, quake = need.number("wall.wind_pressure"), need.number("wall.seismic_pressure")
    if need.lacks:
        return need.lacking
    given = (Given("w_W", wind, "pressure", WIND), Given("w_E", quake, "pressure", EARTHQUAKE))
    says = f"Governs square to the wall: {WIND if wind >= quake else EARTHQUAKE}"
    value = max(wind, quake)
    step = Step(says, "max(w_W, w_E)", given, Given("w", value, "pressure"), "the greater of the two")
    return need.known(value, lambda: (step,))


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
    if need.lacks:
        return ()
    return (
        Action(WIND, wind, share, lift, wind_dead_share_step(building)),
        Action(EARTHQUAKE, quake, quake_share, 0.0, seismic_dead_share_step(building, need)),
    )


_SURE = "Share of dead load sure to be there with"


def wind_dead_share_step(building: Building) -> Step:
    share = building.screening["dead_share"]
    return Step(f"{_SURE} {WIND}", "", (), share.given("k"), share.source)


def seismic_dead_share(building: Building, need: Needs) -> float:
    """0.6 less the upward part of the earthquake, not below zero (ASCE 7 sections 2.4.1 and 12.4.2.2)."""
    share, level = (need.use(building.screening[name]) for name in ("dead_share", "seismic_to_allowable"))
    return max(share - level * need.use(building.screening["vertical_share"]) * need.number("site.sds"), 0.0)


def seismic_dead_share_step(building: Building, need: Needs) -> Step:
    """The same, worked."""
    names = ("dead_share", "seismic_to_allowable", "vertical_share")
    share, level, upward = (building.screening[name] for name in names)
    given = (share.given("k_0"), level.given("c"), upward.given("v"), Given("S_DS", need.number("site.sds")))
    result = Given("k", seismic_dead_share(building, need))
    return Step(f"{_SURE} {EARTHQUAKE}", "max(k_0 − c × v × S_DS, 0)", given, result, upward.source)
