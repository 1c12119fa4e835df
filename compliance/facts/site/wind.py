"""Wind: velocity pressure at a height, and the pressures it puts on the walls of low buildings.

q = c Kz Kzt Kd V² with Kz = k (z / zg)^(2/α) (ASCE 7). Pressures above zero push towards a surface, below zero
pull away from it. They are of the level of the wind speed put in: `to_allowable` of the edition takes them to
allowable stress. Coefficients come from the reference file asce7-wind.
"""

from __future__ import annotations

from collections.abc import Mapping

from compliance.facts.common.reference_values import Part, need_not_negative
from compliance.findings import Standing
from compliance.record import record
from compliance.steps import Given, Step


@record
class Exposure:
    """Terrain constants. `least_kz` is the smallest Kz for pressures on walls as components."""

    name: str
    times: float
    alpha: float
    gradient_height: float
    least_height: float
    least_kz: float


@record
class WindEdition:
    """What one edition of ASCE 7 fixes. `air` is in Pa/(m/s)², pressures in Pa, heights in m."""

    air: float
    directionality: float
    exposures: Mapping[str, Exposure]
    most_height: float
    to_allowable: float
    least_pressure: float
    source: str
    standing: Standing

    @classmethod
    def from_values(cls, values: Mapping[str, object], edition: str, system: str) -> WindEdition:
        """From the `values` of asce7-wind; `system` is "us" or "si". Raises ReferenceValueError."""
        part = Part(values)
        of = part.part("editions").part(edition)
        low = part.measure("least_height", "length")
        return cls(
            air=part.part("air").measure(system, "wind_factor"),
            directionality=part.number("directionality"),
            exposures={name: _exposure(name, of, low) for name in ("B", "C", "D")},
            most_height=part.measure("most_height", "length"),
            to_allowable=of.number("to_allowable"),
            least_pressure=of.measure("least_pressure", "pressure"),
            source=of.text("source"),
            standing=of.standing(),
        )

    def exposure(self, name: str) -> Exposure:
        """Raises ValueError for an exposure that is not B, C or D."""
        if name not in self.exposures:
            raise ValueError(f"wind exposure must be one of {', '.join(self.exposures)}, not {name!r}")
        return self.exposures[name]


def _exposure(name: str, edition: Part, least_height: float) -> Exposure:
    part = edition.part(name)
    alpha, gradient = part.number("alpha"), part.measure("zg", "length")
    if alpha <= 0.0 or gradient <= least_height:
        edition.refuse(name, "must have alpha above zero and zg above the least height")
    return Exposure(name, edition.number("times"), alpha, gradient, least_height, part.number("least_Kz_of_walls"))


@record
class WindSite:
    """The wind at a building: basic speed [m/s], exposure, topographic factor Kzt, and two factors that are 1 where
    the edition has none: ground elevation Ke (from 7-16; 1 is allowed everywhere) and importance I (7-05)."""

    speed: float
    exposure: str
    topographic: float
    elevation: float = 1.0
    importance: float = 1.0


def exposure_factor(height: float, exposure: Exposure, least: float = 0.0) -> float:
    """Kz at `height` [m], not below `least`. Constant below the least height and above zg.

    ASCE 7-05 equations 6-3, ASCE 7-10 note 1 of Table 27.3-1. Raises ValueError for a height below zero.
    """
    need_not_negative(height=height)
    z = _bounded(height, exposure)
    kz: float = exposure.times * (z / exposure.gradient_height) ** (2.0 / exposure.alpha)
    return max(kz, least)


def _bounded(height: float, exposure: Exposure) -> float:
    return min(max(height, exposure.least_height), exposure.gradient_height)


def velocity_pressure(air: float, kz: float, topographic: float, directionality: float, speed: float) -> float:
    """q [Pa] of `speed` [m/s], `air` in Pa/(m/s)² (ASCE 7-10 equation 27.3-1). Raises ValueError below zero."""
    need_not_negative(air=air, kz=kz, topographic=topographic, directionality=directionality, speed=speed)
    return air * kz * topographic * directionality * speed**2


def pressure_at(height: float, site: WindSite, edition: WindEdition, for_walls: bool) -> float:
    """q [Pa] at `height` [m]; `for_walls` asks the least Kz of walls as components. Raises ValueError."""
    exposure = edition.exposure(site.exposure)
    kz = exposure_factor(height, exposure, exposure.least_kz if for_walls else 0.0)
    q = velocity_pressure(edition.air, kz, site.topographic, edition.directionality, site.speed)
    need_not_negative(elevation=site.elevation, importance=site.importance)
    return q * site.elevation * site.importance


def pressure_steps(height: float, site: WindSite, edition: WindEdition, for_walls: bool) -> tuple[Step, ...]:
    """How `pressure_at` finds its value."""
    exposure = edition.exposure(site.exposure)
    least = exposure.least_kz if for_walls else 0.0
    plain, kz = exposure_factor(height, exposure), exposure_factor(height, exposure, least)
    constants = (
        Given("z", _bounded(height, exposure), "length", "height, not less than the least the edition uses"),
        Given("zg", exposure.gradient_height, "length", f"exposure {exposure.name}"),
        Given("α", exposure.alpha, "ratio", f"exposure {exposure.name}"),
    )
    formula = f"{exposure.times:g} × (z / zg)^(2 / α)"
    steps = [
        Step(f"Factor for height, exposure {exposure.name}", formula, constants, _ratio("Kz", plain), edition.source)
    ]
    if kz > plain:
        given = (_ratio("K", plain), _ratio("Kleast", least))
        says = "Not less than the value for walls as components"
        steps.append(Step(says, "max(K, Kleast)", given, _ratio("Kz", kz), edition.source))
    factors = [
        Given("c", edition.air, "wind_factor", "half the density of air"),
        _ratio("Kz", kz),
        Given("Kzt", site.topographic, "ratio", "topographic factor"),
        Given("Kd", edition.directionality, "ratio", "directionality factor"),
        Given("V", site.speed, "speed", "basic wind speed"),
    ]
    formula = "c × Kz × Kzt × Kd × V²"
    for symbol, value, meaning in (
        ("Ke", site.elevation, "ground elevation factor"),
        ("I", site.importance, "importance factor"),
    ):
        if value != 1.0:
            formula += f" × {symbol}"
            factors.append(Given(symbol, value, "ratio", meaning))
    result = Given("q", pressure_at(height, site, edition, for_walls), "pressure")
    return (*steps, Step("Velocity pressure", formula, tuple(factors), result, edition.source))


def _ratio(symbol: str, value: float) -> Given:
    return Given(symbol, value, "ratio")
