"""Density and viscosity of water by temperature, by published formulas whose coefficients are data."""

from __future__ import annotations

import math

from compliance.facts.common.reference_values import Part
from compliance.facts.soil.fractions import SoilError, Values
from compliance.record import record
from compliance.steps import Source

_ZERO_CELSIUS = 273.15


@record
class WaterFormulas:
    """Coefficients of the density and the viscosity of water; temperatures in K, viscosity in Pa·s."""

    above: tuple[float, ...]
    below: tuple[float, ...]
    viscosity_at_20: float
    linear: float
    square: float
    shift: float
    lowest: float
    highest: float
    density_source: Source
    viscosity_source: Source

    @classmethod
    def from_values(cls, values: Values) -> WaterFormulas:
        """From the tables `water_density` and `water_viscosity`. Raises ReferenceValueError."""
        density, viscosity = (Part(values).part(name) for name in ("water_density", "water_viscosity"))
        return cls(
            density.numbers("above"),
            below=density.numbers("below"),
            viscosity_at_20=viscosity.measure("at_20", "viscosity"),
            linear=viscosity.number("linear"),
            square=viscosity.number("square"),
            shift=viscosity.number("shift"),
            lowest=max(part.measure("lowest", "temperature") for part in (density, viscosity)),
            highest=min(part.measure("highest", "temperature") for part in (density, viscosity)),
            density_source=density.source(),
            viscosity_source=viscosity.source(),
        )


@record
class Water:
    """Water as grains sink in it: kg/m³ and Pa·s; `temperature` in K, with where the values come from."""

    density: float
    viscosity: float
    temperature: float | None = None
    density_source: str = ""
    viscosity_source: str = ""


def water_density(formulas: WaterFormulas, temperature: float) -> float:
    """Density of water in kg/m³ at `temperature` in K: a ratio of polynomials in degrees Celsius (Kell 1975)."""
    celsius = _celsius_within(formulas, temperature)
    return _polynomial(formulas.above, celsius) / _polynomial(formulas.below, celsius)


def water_viscosity(formulas: WaterFormulas, temperature: float) -> float:
    """Dynamic viscosity of water in Pa·s at `temperature` in K (Korson, Drost-Hansen and Millero 1969)."""
    celsius = _celsius_within(formulas, temperature)
    exponent = formulas.linear * (20 - celsius) - formulas.square * (celsius - 20) ** 2
    return float(formulas.viscosity_at_20 * 10 ** (exponent / (celsius + formulas.shift)))


def water_at(formulas: WaterFormulas, temperature: float) -> Water:
    """Water at `temperature` in K. Raises SoilError outside the range of the formulas."""
    density, viscosity = water_density(formulas, temperature), water_viscosity(formulas, temperature)
    return Water(
        density,
        viscosity=viscosity,
        temperature=temperature,
        density_source=formulas.density_source,
        viscosity_source=formulas.viscosity_source,
    )


def _polynomial(coefficients: tuple[float, ...], at: float) -> float:
    return math.fsum(coefficient * at**power for power, coefficient in enumerate(coefficients))


def _celsius_within(formulas: WaterFormulas, temperature: float) -> float:
    if not formulas.lowest <= temperature <= formulas.highest:
        low, high = formulas.lowest - _ZERO_CELSIUS, formulas.highest - _ZERO_CELSIUS
        raise SoilError(f"a water temperature outside {low:g} to {high:g} °C: liquid water was meant")
    return temperature - _ZERO_CELSIUS
