"""Kinds of measure: what a value is, whichever unit it is written in, and how documents write it."""

from __future__ import annotations

from functools import cache

from compliance.record import record
from compliance.units.unit_table import NUMBER, Dimension, unit

FIGURES = 4
ALL_FIGURES = 17


@record
class Kind:
    """A kind of measure. `us` and `si` are the units documents write; decimals go with each.

    `us` is "ft-in" for lengths written in feet, inches and fractions; its decimals are those of inches, where a
    sixteenth is too coarse. An empty unit is a plain number. A value is written with at most `figures` significant
    figures; `ALL_FIGURES` for what was measured, counted or set: a dimension, an age, a constant, a specimen.
    """

    name: str
    us: str
    us_decimals: int
    si: str
    si_decimals: int
    example: str
    negative: bool = False
    figures: int = FIGURES

    @property
    def called(self) -> str:
        article = "an" if self.name[0] in "aeiou" else "a"
        return f"{article} {self.name.replace('_', ' ')}"

    @property
    def dimension(self) -> Dimension:
        return unit(self.si).dimension if self.si else NUMBER


_ALL = (
    # name, US unit and decimals, SI unit and decimals, an example of what to write
    Kind(
        "length", us="ft-in", us_decimals=1, si="m", si_decimals=3, example="8 ft 6 in, or 2.6 m", figures=ALL_FIGURES
    ),
    Kind("thickness", us="in", us_decimals=2, si="mm", si_decimals=0, example="16 in, or 400 mm", figures=ALL_FIGURES),
    Kind(
        "coordinate",
        us="ft-in",
        us_decimals=1,
        si="m",
        si_decimals=3,
        example="12 ft, or 3.6 m",
        negative=True,
        figures=ALL_FIGURES,
    ),
    Kind("area", us="ft²", us_decimals=1, si="m²", si_decimals=2, example="120 ft2, or 11 m2"),
    Kind("section_area", us="in²", us_decimals=1, si="mm²", si_decimals=0, example="16 in2, or 10000 mm2"),
    Kind("section_modulus", us="in³", us_decimals=1, si="mm³", si_decimals=0, example="64 in3, or 1000000 mm3"),
    Kind("second_moment", us="in⁴", us_decimals=1, si="mm⁴", si_decimals=0, example="256 in4, or 100000000 mm4"),
    Kind("volume", us="ft³", us_decimals=1, si="m³", si_decimals=2, example="40 ft3, or 1.2 m3"),
    Kind("mass", us="lb", us_decimals=1, si="kg", si_decimals=2, example="12 lb, or 5.5 kg"),
    Kind("force", us="lbf", us_decimals=0, si="kN", si_decimals=2, example="900 lbf, or 4 kN"),
    Kind(
        "moment",
        us="lbf·ft",
        us_decimals=0,
        si="kN·m",
        si_decimals=2,
        example="1200 lbf*ft, or 1.6 kN*m",
        negative=True,
    ),
    Kind(
        "line_moment",
        us="lbf·ft/ft",
        us_decimals=0,
        si="kN·m/m",
        si_decimals=2,
        example="1200 lbf*ft/ft, or 5.4 kN*m/m",
        negative=True,
    ),
    Kind("line_load", us="plf", us_decimals=0, si="kN/m", si_decimals=2, example="600 plf, or 9 kN/m"),
    Kind("pressure", us="psf", us_decimals=1, si="kPa", si_decimals=2, example="35 psf, or 1.7 kPa", negative=True),
    Kind("stress", us="psi", us_decimals=1, si="MPa", si_decimals=3, example="60 psi, or 0.4 MPa"),
    Kind("density", us="pcf", us_decimals=1, si="kg/m³", si_decimals=0, example="110 pcf, or 1760 kg/m3"),
    Kind("speed", us="mph", us_decimals=0, si="m/s", si_decimals=1, example="110 mph, or 49 m/s"),
    Kind(
        "wind_factor",
        us="psf/mph²",
        us_decimals=5,
        si="Pa/(m/s)²",
        si_decimals=3,
        example="0.00256 psf/mph2, or 0.613 Pa/(m/s)2",
        figures=ALL_FIGURES,
    ),
    Kind("time", us="h", us_decimals=2, si="h", si_decimals=2, example="30 min, or 24 h"),
    Kind("age", us="days", us_decimals=0, si="days", si_decimals=0, example="28 days", figures=ALL_FIGURES),
    Kind("seconds", us="s", us_decimals=1, si="s", si_decimals=1, example="40 s, or 30 min"),
    Kind("minutes", us="min", us_decimals=1, si="min", si_decimals=1, example="30 min, or 2 h"),
    Kind("temperature", us="°F", us_decimals=0, si="°C", si_decimals=0, example="70 degF, or 20 degC", negative=True),
    Kind("viscosity", us="Pa·s", us_decimals=6, si="Pa·s", si_decimals=6, example="0.001 Pa*s"),
    Kind(
        "acceleration", us="m/s²", us_decimals=5, si="m/s²", si_decimals=5, example="9.80665 m/s2", figures=ALL_FIGURES
    ),
    Kind("grain_size", us="mm", us_decimals=4, si="mm", si_decimals=4, example="0.05 mm"),
    Kind("grain_density", us="g/cm³", us_decimals=4, si="g/cm³", si_decimals=4, example="2.65 g/cm3"),
    Kind(
        "layer_height",
        us="in",
        us_decimals=3,
        si="mm",
        si_decimals=1,
        example="2 3/8 in, or 60 mm",
        figures=ALL_FIGURES,
    ),
    Kind("vessel_volume", us="gal", us_decimals=1, si="L", si_decimals=1, example="5 gal, or 19 L"),
    Kind("tonnage", us="ton", us_decimals=2, si="t", si_decimals=2, example="3 ton, or 2.7 t"),
    Kind("permeance", us="perm", us_decimals=1, si="ng/(Pa·s·m²)", si_decimals=0, example="5 perms"),
    Kind(
        "thermal_resistance",
        us="ft²·h·°F/Btu",
        us_decimals=2,
        si="m²·K/W",
        si_decimals=3,
        example="4.4 ft2*h*F/Btu, or 0.77 m2*K/W",
    ),
    Kind(
        "heat_capacity",
        us="Btu/(ft²·°F)",
        us_decimals=2,
        si="kJ/(m²·K)",
        si_decimals=1,
        example="6 Btu/(ft2*F), or 123 kJ/(m2*K)",
    ),
    Kind(
        "specific_heat",
        us="Btu/(lb·°F)",
        us_decimals=3,
        si="kJ/(kg·K)",
        si_decimals=3,
        example="0.2 Btu/(lb*F), or 0.84 kJ/(kg*K)",
    ),
    Kind(
        "conductivity",
        us="Btu·in/(h·ft²·°F)",
        us_decimals=2,
        si="W/(m·K)",
        si_decimals=3,
        example="4.5 Btu*in/(h*ft2*F), or 0.65 W/(m*K)",
    ),
    Kind(
        "thermal_transmittance",
        us="Btu/(h·ft²·°F)",
        us_decimals=3,
        si="W/(m²·K)",
        si_decimals=3,
        example="0.08 Btu/(h*ft2*F), or 0.45 W/(m2*K)",
    ),
    Kind("stress_rate", us="psi/min", us_decimals=0, si="MPa/min", si_decimals=2, example="500 psi/min"),
    Kind("force_rate", us="lbf/min", us_decimals=0, si="N/min", si_decimals=0, example="500 lbf/min"),
    Kind("angle", us="°", us_decimals=1, si="°", si_decimals=1, example="45 deg", negative=True),
    Kind("share", us="%", us_decimals=1, si="%", si_decimals=1, example="25 %"),
    Kind("ratio", us="", us_decimals=3, si="", si_decimals=3, example="0.85"),
    Kind("count", us="", us_decimals=0, si="", si_decimals=0, example="5", figures=ALL_FIGURES),
    # Of specimens: digits enough that the figures as printed give the printed strength again.
    Kind(
        "specimen_length",
        us="in",
        us_decimals=3,
        si="mm",
        si_decimals=2,
        example="4.02 in, or 102.1 mm",
        figures=ALL_FIGURES,
    ),
    Kind(
        "specimen_mass",
        us="lb",
        us_decimals=3,
        si="kg",
        si_decimals=3,
        example="7.95 lb, or 3.606 kg",
        figures=ALL_FIGURES,
    ),
    Kind(
        "test_load",
        us="lbf",
        us_decimals=1,
        si="kN",
        si_decimals=3,
        example="2140 lbf, or 9.52 kN",
        figures=ALL_FIGURES,
    ),
)

KINDS: dict[str, Kind] = {kind.name: kind for kind in _ALL}


@cache
def dimension_of(kind_name: str) -> Dimension:
    """The dimension of a kind. Raises KeyError for an unknown kind."""
    return KINDS[kind_name].dimension
