"""Wind at the building: what it blows with, and how it pulls at the roof."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, si, stated, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.statements import SEVERER
from compliance.facts.geometry.subjects import Subject
from compliance.facts.site.wind import WindEdition, WindSite, pressure_at, pressure_steps
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step, no_steps


def wind_edition(building: Building, need: Needs) -> WindEdition | None:
    """The edition the project names; None where it names none."""
    edition = need.field(building.project.site.asce7, "site", "asce7")
    if edition is None:
        return None
    found = building.tables.wind[edition]
    need.rest_on(found.standing)
    return found


def wind_site(building: Building, need: Needs) -> WindSite | None:
    """The wind at the building; None where the project lacks a value for it, which `need` then names.

    The ground elevation factor is 1, which every edition allows. Only 7-05 has an importance factor.
    """
    site = building.project.site
    speed = need.field(si(site.wind_speed), "site", "wind_speed")
    exposure = need.field(site.wind_exposure, "site", "wind_exposure")
    topographic = need.field(site.topographic_factor, "site", "topographic_factor")
    factor = 1.0
    if site.asce7 == "7-05":
        risk = need.field(site.risk_category, "site", "risk_category")
        factor = need.use(building.screening.importance["wind"][risk]) if risk else factor
    return (
        None
        if need.lacks
        else WindSite(speed, exposure=exposure, topographic=topographic, elevation=1.0, importance=factor)
    )


def wind_speed(building: Building, site: Subject) -> Fact:
    """The design wind speed as an ultimate speed, as limits give it [m/s]: the maps of ASCE 7-05 go with allowable
    stresses."""
    need, described = Needs(site), building.project.site
    speed = need.field(si(described.wind_speed), "site", "wind_speed")
    edition = wind_edition(building, need)
    if need.lacks or edition is None:
        return stated(si(described.wind_speed), "site", "wind_speed")
    if edition.to_allowable != 1.0:
        return Fact(speed)
    level = building.tables.wind["7-10"].to_allowable
    return need.solved(ultimate_speed, speed, Given("c", level, "ratio", "from ultimate to allowable"))


ultimate_speed = equation(
    "Basic wind speed of ASCE 7-05 as an ultimate speed", "speed / sqrt(level)", Symbol("V_ult", "speed"),
    "IBC 2021 section 1609.3.1, V_asd = V_ult × √0.6, read in a public copy",
    speed=Symbol("V", "speed", "as stated, for allowable stresses"), level=Symbol("c"),
)  # fmt: skip


def enclosure(building: Building, site: Subject) -> Fact:
    """As stated; partially enclosed where more than a little of a side has no wall, for that is the more severe."""
    shown = building.project.site.enclosure
    if shown != "enclosed" or enclosure_agrees(building, site).value is not False:
        return stated(shown, "site", "enclosure")
    step = Step("Enclosure used, a side of the building is open", formula="", given=(Given("stated", shown, "word"),),
                result=Given("", "partially enclosed", "word"), source=SEVERER)  # fmt: skip
    return Fact("partially enclosed", worked=lambda: (step,))


def enclosure_agrees(building: Building, site: Subject) -> Fact:
    """Whether no side of a building stated to be enclosed is open."""
    shown, bare = building.project.site.enclosure, building.subject("project", "project").fact("project.open_share")
    if shown != "enclosed" or bare.value is None:
        return without_meaning("the building is not stated to be enclosed, or its sides are not known")
    need = Needs(site)
    share, most = need.number_of(bare), need.use(building.screening["open_side"])
    return need.known(share <= most * (1 + 1e-9), no_steps)


def velocity_pressure(building: Building, site: Subject) -> Fact:
    """q at the height of the building, in place of the mean height of the roof: on the safe side. Level of the wind
    speed."""
    need = Needs(site)
    height = need.number("project.building_height")
    edition, wind = wind_edition(building, need), wind_site(building, need)
    if need.lacks or edition is None or wind is None:
        return need.lacking
    return need.known(
        pressure_at(height, wind, edition, False), lambda: pressure_steps(height, wind, edition, False)
    )  # fmt: skip


def suction(building: Building, roof: Subject) -> Fact:
    """Wind suction on the roof between the walls, inside pressure added, at the level of allowable stresses [Pa]."""
    return _lift(building, roof, "roof_suction")


def eave_suction(building: Building, roof: Subject) -> Fact:
    """The same on the eaves, pushed up from below as well [Pa]."""
    return _lift(building, roof, "eave_lift")


def _lift(building: Building, roof: Subject, below: str) -> Fact:
    need = Needs(roof)
    q = need.number("site.wind_pressure")
    edition = wind_edition(building, need)
    enclosure = str(need.of(building.subject("site", "site").fact("site.enclosure")))
    if need.lacks or edition is None:
        return need.lacking
    gust, above = building.tables.building.gust, building.screening["roof_suction"]
    inside = building.tables.walls.internal_of(enclosure)
    need.rest_on(building.tables.building.standing)
    need.rest_on(building.tables.walls.standing)
    need.use(above)
    suction_on_top = above.given("C_p", "suction on the roof")
    if below == "eave_lift":
        under = building.screening[below]
        need.use(under)
        eaves = lift_of_eaves.sourced(above.source)
        return need.solved(eaves, edition.to_allowable, q, gust, suction_on_top, under.given("C_e", _UNDER))
    inner = Given("GC_pi", inside, "ratio", enclosure)
    return need.solved(lift_of_roof.sourced(above.source), edition.to_allowable, q, gust, suction_on_top, inner)


_UNDER = "pressure under the eaves"
_LEVEL = Symbol("c", "ratio", "to allowable stresses")
_PRESSURE, _GUST = Symbol("q", "pressure", "velocity pressure"), Symbol("G", "ratio", "gust factor")

lift_of_eaves = equation(
    "Wind lifts the eaves", "level * pressure * gust * (above + under)", Symbol("u", "pressure"), "",
    level=_LEVEL, pressure=_PRESSURE, gust=_GUST, above=Symbol("C_p"), under=Symbol("C_e"),
)  # fmt: skip

lift_of_roof = equation(
    "Wind lifts the roof between the walls", "level * pressure * (gust * above + inside)", Symbol("u", "pressure"), "",
    level=_LEVEL, pressure=_PRESSURE, gust=_GUST, above=Symbol("C_p"), inside=Symbol("GC_pi"),
)  # fmt: skip

EQUATIONS = (ultimate_speed, lift_of_eaves, lift_of_roof)
