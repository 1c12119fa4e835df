"""The units people may write, each as a factor, an offset and a dimension.

The figures stand in `factors.py`, which pint derives from `units.txt` (see `registry.py`). Held as a plain
table, no text of a user ever reaches pint's parser, and a check starts without pint and what it imports.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from compliance.record import record
from compliance.units.factors import FACTORS


class Dimension(NamedTuple):
    """Exponents of metre, kilogram, second and kelvin. All zero: a plain number."""

    length: float = 0
    mass: float = 0
    time: float = 0
    temperature: float = 0

    def times(self, other: Dimension) -> Dimension:
        return Dimension(*(a + b for a, b in zip(self, other, strict=True)))

    def over(self, other: Dimension) -> Dimension:
        return Dimension(*(a - b for a, b in zip(self, other, strict=True)))

    def power(self, exponent: float) -> Dimension:
        return Dimension(*(a * exponent for a in self))


NUMBER = Dimension()


@record
class Unit:
    """A unit as written: SI value = number * factor + offset."""

    symbol: str
    factor: float
    offset: float
    dimension: Dimension

    def to_si(self, number: float) -> float:
        return number * self.factor + self.offset

    def from_si(self, value: float) -> float:
        return (value - self.offset) / self.factor


# Every spelling that is understood, and the name of the unit in units.txt.
SPELLINGS: dict[str, str] = {
    "µm": "micrometer", "μm": "micrometer", "um": "micrometer", "mm": "millimeter", "cm": "centimeter", "m": "meter",
    "in": "inch", "ft": "foot", "yd": "yard",
    "in2": "square_inch", "in²": "square_inch", "ft2": "square_foot", "ft²": "square_foot",
    "mm2": "square_millimeter", "mm²": "square_millimeter", "m2": "square_meter", "m²": "square_meter",
    "in3": "cubic_inch", "in³": "cubic_inch", "ft3": "cubic_foot", "ft³": "cubic_foot",
    "yd3": "cubic_yard", "yd³": "cubic_yard", "m3": "cubic_meter", "m³": "cubic_meter",
    "mm3": "cubic_millimeter", "mm³": "cubic_millimeter", "L": "liter", "gal": "us_gallon",
    "in4": "inch_fourth", "in⁴": "inch_fourth", "mm4": "millimeter_fourth", "mm⁴": "millimeter_fourth",
    "kg": "kilogram", "g": "gram", "t": "tonne", "lb": "pound", "ton": "short_ton",
    "s": "second", "min": "minute", "h": "hour", "day": "day", "days": "day", "week": "week", "weeks": "week",
    "psf/mph²": "psf_per_square_mph", "psf/mph2": "psf_per_square_mph",
    "Pa/(m/s)²": "pascal_per_square_mps", "Pa/(m/s)2": "pascal_per_square_mps",
    "mph": "mile_per_hour", "km/h": "kilometer_per_hour", "m/s": "meter_per_second",
    "m/s2": "meter_per_second_squared", "m/s²": "meter_per_second_squared",
    "N": "newton", "kN": "kilonewton", "lbf": "pound_force", "kip": "kip", "kgf": "kilogram_force",
    "Pa": "pascal", "kPa": "kilopascal", "MPa": "megapascal", "N/mm2": "megapascal", "N/mm²": "megapascal",
    "psi": "pound_per_square_inch", "ksi": "kip_per_square_inch", "psf": "pound_per_square_foot",
    "kN/m2": "kilopascal", "kN/m²": "kilopascal",
    "kgf/cm2": "kilogram_force_per_square_centimeter", "kgf/cm²": "kilogram_force_per_square_centimeter",
    "ksf": "kip_per_square_foot", "klf": "kip_per_linear_foot",
    "plf": "pound_per_linear_foot", "lbf/ft": "pound_per_linear_foot",
    "N/m": "newton_per_meter", "kN/m": "kilonewton_per_meter",
    "pcf": "pound_per_cubic_foot", "lb/ft3": "pound_per_cubic_foot", "lb/ft³": "pound_per_cubic_foot",
    "kg/m3": "kilogram_per_cubic_meter", "kg/m³": "kilogram_per_cubic_meter",
    "g/cm3": "gram_per_cubic_centimeter", "g/cm³": "gram_per_cubic_centimeter",
    "lbf·ft": "pound_foot", "lbf*ft": "pound_foot", "N·m": "newton_meter", "N*m": "newton_meter",
    "lbf·ft/ft": "pound_foot_per_foot", "lbf*ft/ft": "pound_foot_per_foot",
    "kN·m/m": "kilonewton_meter_per_meter", "kN*m/m": "kilonewton_meter_per_meter",
    "kN·m": "kilonewton_meter", "kN*m": "kilonewton_meter", "Pa·s": "pascal_second", "Pa*s": "pascal_second",
    "psi/min": "psi_per_minute", "MPa/min": "megapascal_per_minute",
    "lbf/min": "lbf_per_minute", "N/min": "newton_per_minute",
    "perm": "perm", "perms": "perm", "ng/(Pa·s·m²)": "nanogram_permeance", "ng/(Pa*s*m2)": "nanogram_permeance",
    "ft²·h·°F/Btu": "thermal_resistance_us", "ft2*h*F/Btu": "thermal_resistance_us",
    "m²·K/W": "thermal_resistance_si", "m2*K/W": "thermal_resistance_si",
    "Btu/(ft²·°F)": "btu_per_square_foot_degree", "Btu/(ft2*F)": "btu_per_square_foot_degree",
    "kJ/(m²·K)": "kilojoule_per_square_meter_kelvin", "kJ/(m2*K)": "kilojoule_per_square_meter_kelvin",
    "Btu/(lb·°F)": "btu_per_pound_degree", "Btu/(lb*F)": "btu_per_pound_degree",
    "kJ/(kg·K)": "kilojoule_per_kilogram_kelvin", "kJ/(kg*K)": "kilojoule_per_kilogram_kelvin",
    "Btu·in/(h·ft²·°F)": "btu_inch_per_hour_square_foot_degree",
    "Btu*in/(h*ft2*F)": "btu_inch_per_hour_square_foot_degree",
    "Btu/(h·ft·°F)": "btu_per_hour_foot_degree", "Btu/(h*ft*F)": "btu_per_hour_foot_degree",
    "W/(m·K)": "watt_per_meter_kelvin", "W/(m*K)": "watt_per_meter_kelvin",
    "Btu/(h·ft²·°F)": "btu_per_hour_square_foot_degree", "Btu/(h*ft2*F)": "btu_per_hour_square_foot_degree",
    "W/(m²·K)": "watt_per_square_meter_kelvin", "W/(m2*K)": "watt_per_square_meter_kelvin",
    "°C": "degree_Celsius", "degC": "degree_Celsius", "°F": "degree_Fahrenheit", "degF": "degree_Fahrenheit",
    "K": "kelvin", "deg": "degree", "°": "degree", "rad": "radian", "%": "percent",
}  # fmt: skip


@cache
def unit(symbol: str) -> Unit:
    """The unit spelled `symbol`. Raises KeyError for a spelling that is not in the list."""
    factor, offset, dimension = FACTORS[SPELLINGS[symbol]]
    return Unit(symbol, factor, offset, Dimension(*dimension))
