"""Wind pressure on a piece of wall as a component: p = q (GCp − GCpi), the internal pressure on the worse side.

For enclosed or partly enclosed buildings no higher than the edition's limit for these coefficients (ASCE 7
chapter 30). For a wall that also braces the building see `wind_on_building`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.facts.common.reference_values import Part, at_most, need_not_negative
from compliance.facts.site.wind import WindEdition, WindSite, pressure_at, pressure_steps
from compliance.findings import Standing, lowest
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Source, Step, Worked

MIDDLE, END = "middle", "end"


@record
class WallCoefficients:
    """GCp of walls as components over the effective wind area [m²], and the geometry that goes with them."""

    areas: tuple[float, float]
    inward: tuple[float, float]
    outward: Mapping[str, tuple[float, float]]
    low_slope: float
    low_slope_times: float
    width_over_span: float
    internal: Mapping[str, float]
    source: Source
    standing: Standing

    @classmethod
    def from_values(cls, values: Mapping[str, object]) -> WallCoefficients:
        """From the `values` of asce7-wind. Raises ReferenceValueError."""
        whole = Part(values)
        part, inside = whole.part("walls"), whole.part("internal")
        areas = part.part("areas")
        small, large = areas.measure("small", "area"), areas.measure("large", "area")
        if not 0.0 < small < large:
            part.refuse("areas", "must have a large area above the small one")
        return cls(
            areas=(small, large),
            inward=_pair(part, "inward"),
            outward={zone: _pair(part.part("outward"), zone) for zone in (MIDDLE, END)},
            low_slope=part.measure("low_slope", "angle"),
            low_slope_times=part.number("low_slope_times"),
            width_over_span=part.number("width_over_span"),
            internal={name: inside.number(name) for name in inside if name not in ("source", "standing")},
            source=part.source(),
            standing=lowest([part.standing(), inside.standing()]) or Standing.OPEN,
        )

    def internal_of(self, enclosure: str) -> float:
        """GCpi. Raises ValueError for an enclosure the file does not name."""
        if enclosure not in self.internal:
            raise ValueError(f"enclosure must be one of {', '.join(self.internal)}, not {enclosure!r}")
        return self.internal[enclosure]


def _pair(part: Part, key: str) -> tuple[float, float]:
    numbers = part.numbers(key)
    if len(numbers) != 2:
        part.refuse(key, "must be two numbers")
    return numbers[0], numbers[1]


def external_coefficient(area: float, ends: tuple[float, float], areas: tuple[float, float]) -> float:
    """GCp at an effective wind area [m²], straight over the logarithm of the area and flat beyond `areas`."""
    need_not_negative(area=area)
    if at_most(area, areas[0]):
        return ends[0]
    share = min(math.log(area / areas[0]) / math.log(areas[1] / areas[0]), 1.0)
    return ends[0] + (ends[1] - ends[0]) * share


@record
class PieceOfWall:
    """`height` is the mean roof height [m], `area` the effective wind area [m²], `zone` MIDDLE or END. The roof's
    slope [rad] is None where unknown: then nothing is taken off for a low slope."""

    height: float
    area: float
    zone: str
    enclosure: str
    roof_slope: float | None = None


@record
class WallPressures:
    """The worst pressures [Pa] on a piece of wall: `inward` above zero, `outward` below; None with the reason."""

    inward: float | None
    outward: float | None
    standing: Standing
    worked: Worked = tuple
    reason: str = ""

    @property
    def steps(self) -> tuple[Step, ...]:
        return self.worked()


def wall_pressures(
    piece: PieceOfWall, site: WindSite, edition: WindEdition, coefficients: WallCoefficients
) -> WallPressures:
    """Pressures on a piece of wall as a component (ASCE 7-10 section 30.4).

    Raises ValueError for an unknown zone, enclosure or exposure, or a measure below zero.
    """
    standing = lowest([edition.standing, coefficients.standing]) or Standing.OPEN
    if piece.zone not in coefficients.outward:
        raise ValueError(f"zone must be one of {', '.join(coefficients.outward)}, not {piece.zone!r}")
    inside = coefficients.internal_of(piece.enclosure)
    if not at_most(piece.height, edition.most_height):
        return WallPressures(None, None, standing, reason="the building is too high for these pressure coefficients")
    q, least = pressure_at(piece.height, site, edition, for_walls=True), edition.least_pressure
    low = piece.roof_slope is not None and at_most(piece.roof_slope, coefficients.low_slope)
    times = coefficients.low_slope_times if low else 1.0
    towards = times * external_coefficient(piece.area, coefficients.inward, coefficients.areas)
    away = times * external_coefficient(piece.area, coefficients.outward[piece.zone], coefficients.areas)
    named = (towards_wall.sourced(coefficients.source), away_from_wall.sourced(coefficients.source))
    zone = f"{piece.zone} zone, effective wind area as given"
    inner = Given("GCpi", inside, "ratio", piece.enclosure)
    inward, outward = (
        one(q, Given("GCp", external, "ratio", zone), inner, least)
        for one, external in zip(named, (towards, away), strict=True)
    )

    def worked() -> tuple[Step, ...]:
        return (*pressure_steps(piece.height, site, edition, for_walls=True), inward.step(), outward.step())

    return WallPressures(float(inward), float(outward), standing, worked)


_PRESSURE = Symbol("q", "pressure", "velocity pressure at the mean roof height")
_LEAST = Symbol("pmin", "pressure", "least pressure")

towards_wall = equation(
    "Pressure towards the wall", "max(pressure * (external + internal), least)", Symbol("p", "pressure"), "",
    pressure=_PRESSURE, external=Symbol("GCp"), internal=Symbol("GCpi"), least=_LEAST,
)  # fmt: skip

away_from_wall = equation(
    "Pressure away from the wall", "min(pressure * (external - internal), -least)", Symbol("p", "pressure"), "",
    pressure=_PRESSURE, external=Symbol("GCp"), internal=Symbol("GCpi"), least=_LEAST,
)  # fmt: skip

EQUATIONS = (towards_wall, away_from_wall)
