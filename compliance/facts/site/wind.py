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
from compliance.rules.formulas.equations import Equation, Solved, equation
from compliance.rules.formulas.symbols import Numeral, Symbol, not_negative
from compliance.steps import Given, Source, Step


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
    source: Source
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
            source=of.source(),
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
    return Exposure(
        name,
        times=edition.number("times"),
        alpha=alpha,
        gradient_height=gradient,
        least_height=least_height,
        least_kz=part.number("least_Kz_of_walls"),
    )


@record
class WindSite:
    """The wind at a building: basic speed [m/s], exposure, topographic factor Kzt, and two factors that are 1 where
    the edition has none: ground elevation Ke (from 7-16; 1 is allowed everywhere) and importance I (7-05)."""

    speed: float
    exposure: str
    topographic: float
    elevation: float = 1.0
    importance: float = 1.0


factor_for_height = equation(
    "Factor for height", "times * (height / gradient_height) ** (2 / alpha)", Symbol("Kz"), "",
    times=Numeral(), height=Symbol("z", "length", "height, not less than the least the edition uses"),
    gradient_height=Symbol("zg", "length"), alpha=Symbol("α"),
)  # fmt: skip

least_factor = equation(
    "Not less than the value for walls as components", "max(plain, least)", Symbol("Kz"), "",
    plain=Symbol("K"), least=Symbol("Kleast"),
)  # fmt: skip

velocity_pressure = equation(
    "Velocity pressure", "air * kz * topographic * directionality * speed ** 2", Symbol("q", "pressure"), "",
    air=not_negative("c", "wind_factor", "half the density of air"), kz=not_negative("Kz"),
    topographic=not_negative("Kzt", "ratio", "topographic factor"),
    directionality=not_negative("Kd", "ratio", "directionality factor"),
    speed=not_negative("V", "speed", "basic wind speed"),
)  # fmt: skip
"""ASCE 7-10 equation 27.3-1."""


def _with_factors(*named: str) -> Equation:
    """The velocity pressure of an edition that has one factor more or two, where they are not 1."""
    more = {"elevation": not_negative("Ke", "ratio", "ground elevation factor"),
            "importance": not_negative("I", "ratio", "importance factor")}  # fmt: skip
    expression = " * ".join((velocity_pressure.expression, *named))
    symbols = {**velocity_pressure.symbols, **{name: more[name] for name in named}}
    return equation(velocity_pressure.title, expression, velocity_pressure.result, "", **symbols)


pressure_with_elevation = _with_factors("elevation")
pressure_with_importance = _with_factors("importance")
pressure_with_both = _with_factors("elevation", "importance")

EQUATIONS = (
    factor_for_height, least_factor, velocity_pressure, pressure_with_elevation, pressure_with_importance,
    pressure_with_both,
)  # fmt: skip


def exposure_factor(height: float, exposure: Exposure, least: float = 0.0) -> Solved:
    """Kz at `height` [m], not below `least`. Constant below the least height and above zg.

    ASCE 7-05 equations 6-3, ASCE 7-10 note 1 of Table 27.3-1. Raises ValueError for a height below zero.
    """
    return exposure_lines(height, exposure, least)[-1]


def exposure_lines(height: float, exposure: Exposure, least: float, source: str = "") -> tuple[Solved, ...]:
    """Kz by height, and once more where `least` is more."""
    need_not_negative(height=height)
    z, says = min(max(height, exposure.least_height), exposure.gradient_height), f"exposure {exposure.name}"
    named = factor_for_height.titled(f"Factor for height, {says}").sourced(source)
    gradient, alpha = Given("zg", exposure.gradient_height, "length", says), Given("α", exposure.alpha, "ratio", says)
    plain = named(exposure.times, z, gradient, alpha)
    return (plain, least_factor.sourced(source)(plain, least)) if least > plain else (plain,)


def pressure_lines(height: float, site: WindSite, edition: WindEdition, for_walls: bool) -> tuple[Solved, ...]:
    """Kz and, last, q [Pa] at `height` [m]; `for_walls` asks the least Kz of walls as components. Raises ValueError."""
    exposure = edition.exposure(site.exposure)
    kz = exposure_lines(height, exposure, exposure.least_kz if for_walls else 0.0, edition.source)
    factors = edition.air, kz[-1], site.topographic, edition.directionality, site.speed
    more = [one for one in (site.elevation, site.importance) if one != 1.0]
    if len(more) == 2:
        named = pressure_with_both
    elif more:
        named = pressure_with_elevation if site.elevation != 1.0 else pressure_with_importance
    else:
        named = velocity_pressure
    return (*kz, named.sourced(edition.source)(*factors, *more))


def pressure_at(height: float, site: WindSite, edition: WindEdition, for_walls: bool) -> float:
    """q [Pa] at `height` [m]. Raises ValueError as `pressure_lines`."""
    return pressure_lines(height, site, edition, for_walls)[-1]


def pressure_steps(height: float, site: WindSite, edition: WindEdition, for_walls: bool) -> tuple[Step, ...]:
    """How `pressure_at` finds its value."""
    return tuple(one.step() for one in pressure_lines(height, site, edition, for_walls))
