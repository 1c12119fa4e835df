"""Kinds of measure: what a value is, whichever unit it is written in, and how documents write it."""

from __future__ import annotations

from functools import cache

from compliance.record import record
from compliance.units.unit_table import NUMBER, Dimension, unit


@record
class Kind:
    """A kind of measure. `us` and `si` are the units documents write; decimals go with each.

    `us` is "ft-in" for lengths written in feet, inches and fractions; its decimals are those of inches, where a
    sixteenth is too coarse. An empty unit is a plain number.
    """

    name: str
    us: str
    us_decimals: int
    si: str
    si_decimals: int
    example: str
    negative: bool = False

    @property
    def called(self) -> str:
        article = "an" if self.name[0] in "aeiou" else "a"
        return f"{article} {self.name.replace('_', ' ')}"

    @property
    def dimension(self) -> Dimension:
        return unit(self.si).dimension if self.si else NUMBER


_ALL = (
    # name, US unit and decimals, SI unit and decimals, an example of what to write
    Kind("length", "ft-in", 1, "m", 3, "8 ft 6 in, or 2.6 m"),
    Kind("thickness", "in", 2, "mm", 0, "16 in, or 400 mm"),
    Kind("coordinate", "ft-in", 1, "m", 3, "12 ft, or 3.6 m", negative=True),
    Kind("area", "ft²", 1, "m²", 2, "120 ft2, or 11 m2"),
    Kind("section_area", "in²", 1, "mm²", 0, "16 in2, or 10000 mm2"),
    Kind("section_modulus", "in³", 1, "mm³", 0, "64 in3, or 1000000 mm3"),
    Kind("second_moment", "in⁴", 1, "mm⁴", 0, "256 in4, or 100000000 mm4"),
    Kind("volume", "ft³", 1, "m³", 2, "40 ft3, or 1.2 m3"),
    Kind("mass", "lb", 1, "kg", 2, "12 lb, or 5.5 kg"),
    Kind("force", "lbf", 0, "kN", 2, "900 lbf, or 4 kN"),
    Kind("moment", "lbf·ft", 0, "kN·m", 2, "1200 lbf*ft, or 1.6 kN*m", negative=True),
    Kind("line_moment", "lbf·ft/ft", 0, "kN·m/m", 2, "1200 lbf*ft/ft, or 5.4 kN*m/m", negative=True),
    Kind("line_load", "plf", 0, "kN/m", 2, "600 plf, or 9 kN/m"),
    Kind("pressure", "psf", 1, "kPa", 2, "35 psf, or 1.7 kPa", negative=True),
    Kind("stress", "psi", 1, "MPa", 3, "60 psi, or 0.4 MPa"),
    Kind("density", "pcf", 1, "kg/m³", 0, "110 pcf, or 1760 kg/m3"),
    Kind("speed", "mph", 0, "m/s", 1, "110 mph, or 49 m/s"),
    Kind("wind_factor", "psf/mph²", 5, "Pa/(m/s)²", 3, "0.00256 psf/mph2, or 0.613 Pa/(m/s)2"),
    Kind("time", "h", 2, "h", 2, "30 min, or 24 h"),
    Kind("age", "days", 0, "days", 0, "28 days"),
    Kind("seconds", "s", 1, "s", 1, "40 s, or 30 min"),
    Kind("minutes", "min", 1, "min", 1, "30 min, or 2 h"),
    Kind("temperature", "°F", 0, "°C", 0, "70 degF, or 20 degC", negative=True),
    Kind("viscosity", "Pa·s", 6, "Pa·s", 6, "0.001 Pa*s"),
    Kind("acceleration", "m/s²", 5, "m/s²", 5, "9.80665 m/s2"),
    Kind("grain_size", "mm", 4, "mm", 4, "0.05 mm"),
    Kind("grain_density", "g/cm³", 4, "g/cm³", 4, "2.65 g/cm3"),
    Kind("layer_height", "in", 3, "mm", 1, "2 3/8 in, or 60 mm"),
    Kind("vessel_volume", "gal", 1, "L", 1, "5 gal, or 19 L"),
    Kind("tonnage", "ton", 2, "t", 2, "3 ton, or 2.7 t"),
    Kind("permeance", "perm", 1, "ng/(Pa·s·m²)", 0, "5 perms"),
    Kind("thermal_resistance", "ft²·h·°F/Btu", 2, "m²·K/W", 3, "4.4 ft2*h*F/Btu, or 0.77 m2*K/W"),
    Kind("stress_rate", "psi/min", 0, "MPa/min", 2, "500 psi/min"),
    Kind("force_rate", "lbf/min", 0, "N/min", 0, "500 lbf/min"),
    Kind("angle", "°", 1, "°", 1, "45 deg", negative=True),
    Kind("share", "%", 1, "%", 1, "25 %"),
    Kind("ratio", "", 3, "", 3, "0.85"),
    Kind("count", "", 0, "", 0, "5"),
    # Of specimens: digits enough that the figures as printed give the printed strength again.
    Kind("specimen_length", "in", 3, "mm", 2, "4.02 in, or 102.1 mm"),
    Kind("specimen_mass", "lb", 3, "kg", 3, "7.95 lb, or 3.606 kg"),
    Kind("test_load", "lbf", 1, "kN", 3, "2140 lbf, or 9.52 kN"),
)

KINDS: dict[str, Kind] = {kind.name: kind for kind in _ALL}


@cache
def dimension_of(kind_name: str) -> Dimension:
    """The dimension of a kind. Raises KeyError for an unknown kind."""
    return KINDS[kind_name].dimension
