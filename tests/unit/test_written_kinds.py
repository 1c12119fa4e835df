"""How each kind of measure is written: its unit and decimals in both systems. The reference for values is pint.

Decimals are the project's own: enough to show a sixteenth of an inch, a millimetre, a tenth of a pound per square inch,
and no more than four figures of what is worked out.
"""

from __future__ import annotations

import re

import pint
import pytest

from compliance.units import KINDS, MeasureError, Writer, measure
from compliance.units.kinds import FIGURES

# kind: a value in SI, what is written in US units, the same unit for pint, what is written in SI units, for pint
WRITTEN = {
    "thickness": (0.4123456, "16.23 in", "inch", "412 mm", "mm"),
    "area": (11.23456, "120.9 ft²", "ft**2", "11.23 m²", "m**2"),
    "section_area": (0.0123456, "19.1 in²", "inch**2", "12350 mm²", "mm**2"),
    "section_modulus": (0.0012345678, "75.3 in³", "inch**3", "1235000 mm³", "mm**3"),
    "second_moment": (0.0001234567894, "296.6 in⁴", "inch**4", "123500000 mm⁴", "mm**4"),
    "volume": (1.23612, "43.7 ft³", "ft**3", "1.24 m³", "m**3"),
    "mass": (5.6789, "12.5 lb", "lb", "5.68 kg", "kg"),
    "force": (4024.6, "905 lbf", "lbf", "4.02 kN", "kN"),
    "moment": (1612.3, "1189 lbf·ft", "lbf*ft", "1.61 kN·m", "kN*m"),
    "line_moment": (5412.3, "1217 lbf·ft/ft", "lbf", "5.41 kN·m/m", "kN"),
    "line_load": (9012.3, "618 plf", "lbf/ft", "9.01 kN/m", "kN/m"),
    "pressure": (1727.456, "36.1 psf", "lbf/ft**2", "1.73 kPa", "kPa"),
    "stress": (412345.6, "59.8 psi", "psi", "0.412 MPa", "MPa"),
    "density": (1765.4, "110.2 pcf", "lb/ft**3", "1765 kg/m³", "kg/m**3"),
    "speed": (49.123, "110 mph", "mile/hour", "49.1 m/s", "m/s"),
    "wind_factor": (0.614456, "0.00256 psf/mph²", "lbf/ft**2/(mile/hour)**2", "0.614 Pa/(m/s)²", "Pa/(m/s)**2"),
    "time": (12345.0, "3.43 h", "hour", "3.43 h", "hour"),
    "age": (86400 * 28.4, "28 days", "day", "28 days", "day"),
    "seconds": (40.16, "40.2 s", "s", "40.2 s", "s"),
    "minutes": (1834.0, "30.6 min", "min", "30.6 min", "min"),
    "temperature": (294.55, "71 °F", "degF", "21 °C", "degC"),
    "viscosity": (0.00123456789, "0.001235 Pa·s", "Pa*s", "0.001235 Pa·s", "Pa*s"),
    "acceleration": (9.806654, "9.80665 m/s²", "m/s**2", "9.80665 m/s²", "m/s**2"),
    "grain_size": (5.67891e-05, "0.0568 mm", "mm", "0.0568 mm", "mm"),
    "grain_density": (2654.321, "2.654 g/cm³", "g/cm**3", "2.654 g/cm³", "g/cm**3"),
    "layer_height": (0.0612345, "2.411 in", "inch", "61.2 mm", "mm"),
    "vessel_volume": (0.0191234, "5.1 gal", "gallon", "19.1 L", "L"),
    "tonnage": (2716.3, "2.99 ton", "short_ton", "2.72 t", "tonne"),
    "permeance": (2.9284e-10, "5.1 perm", "", "293 ng/(Pa·s·m²)", "ng/(Pa*s*m**2)"),
    "thermal_resistance": (0.774567, "4.4 ft²·h·°F/Btu", "ft**2*hour*delta_degF/Btu", "0.775 m²·K/W", "m**2*K/W"),
    "heat_capacity": (
        122650.5, "6 Btu/(ft²·°F)", "british_thermal_unit/ft**2/delta_degF", "122.7 kJ/(m²·K)", "kJ/m**2/K",
    ),
    "specific_heat": (837.36, "0.2 Btu/(lb·°F)", "british_thermal_unit/lb/delta_degF", "0.837 kJ/(kg·K)", "kJ/kg/K"),
    "conductivity": (
        0.64903, "4.5 Btu·in/(h·ft²·°F)", "british_thermal_unit*inch/hour/ft**2/delta_degF", "0.649 W/(m·K)", "W/m/K",
    ),
    "thermal_transmittance": (
        0.465432, "0.082 Btu/(h·ft²·°F)", "british_thermal_unit/hour/ft**2/delta_degF", "0.465 W/(m²·K)", "W/m**2/K",
    ),
    "stress_rate": (57476.7, "500 psi/min", "psi/min", "3.45 MPa/min", "MPa/min"),
    "force_rate": (37.123, "501 lbf/min", "lbf/min", "2227 N/min", "N/min"),
    "angle": (0.7654, "43.9°", "degree", "43.9°", "degree"),
    "share": (0.123456, "12.3 %", "percent", "12.3 %", "percent"),
    "ratio": (0.123456, "0.123", "dimensionless", "0.123", "dimensionless"),
    "count": (5.4, "5", "dimensionless", "5", "dimensionless"),
    "specimen_length": (0.1021087, "4.02 in", "inch", "102.11 mm", "mm"),
    "specimen_mass": (3.6061234, "7.95 lb", "lb", "3.606 kg", "kg"),
    "test_load": (9519.2312, "2140 lbf", "lbf", "9.519 kN", "kN"),
}  # fmt: skip
BASE = {
    "area": "m**2", "section_area": "m**2", "section_modulus": "m**3", "second_moment": "m**4", "volume": "m**3",
    "mass": "kg", "force": "N", "moment": "N*m", "line_moment": "N", "line_load": "N/m", "pressure": "Pa",
    "stress": "Pa", "density": "kg/m**3", "speed": "m/s", "wind_factor": "Pa/(m/s)**2", "time": "s", "age": "s",
    "seconds": "s", "minutes": "s", "temperature": "K", "viscosity": "Pa*s", "acceleration": "m/s**2",
    "grain_density": "kg/m**3", "vessel_volume": "m**3", "tonnage": "kg", "permeance": "kg/(Pa*s*m**2)",
    "thermal_resistance": "m**2*K/W", "heat_capacity": "J/m**2/K", "specific_heat": "J/kg/K", "conductivity": "W/m/K",
    "thermal_transmittance": "W/m**2/K", "stress_rate": "Pa/s", "force_rate": "N/s", "angle": "radian",
    "share": "dimensionless", "ratio": "dimensionless", "count": "dimensionless", "specimen_mass": "kg",
    "test_load": "N",
}  # fmt: skip
BELOW_ZERO = {"coordinate", "moment", "line_moment", "pressure", "temperature", "angle"}


@pytest.fixture(scope="module")
def reference() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


def test_every_kind_is_here() -> None:
    assert {*WRITTEN, "length", "coordinate"} == set(KINDS)


@pytest.mark.parametrize("kind", WRITTEN)
def test_unit_and_decimals(reference: pint.UnitRegistry[float], kind: str) -> None:
    value, us, us_unit, si, si_unit = WRITTEN[kind]
    assert (Writer("us").write(value, kind), Writer("si").write(value, kind)) == (us, si)
    for text, unit in ((us, us_unit), (si, si_unit)):
        if not unit:
            continue  # pint has no perm; its factor is held against NIST SP 811 in test_unit_factors
        number = re.match(r"[0-9.]+", text)
        assert number
        decimals = len(number[0].partition(".")[2]) or min(0, FIGURES - len(number[0]))
        expected = reference.Quantity(value, BASE.get(kind, "m")).to(unit).magnitude
        assert float(number[0]) == round(expected, decimals)


@pytest.mark.parametrize("kind", ["length", "coordinate"])
def test_lengths_go_to_the_sixteenth_and_the_millimetre(kind: str) -> None:
    """3.2104 m is 126.394 in: 10 ft, 6 in and 6.3 sixteenths."""
    assert Writer("us").write(3.2104, kind) == "10 ft 6 3/8 in"
    assert Writer("si").write(3.2104, kind) == "3.21 m"
    assert Writer("si").write(3.2106, kind) == "3.211 m"


@pytest.mark.parametrize("kind", [name for name, kind in KINDS.items() if kind.si])
def test_what_may_lie_below_zero(kind: str) -> None:
    shown = re.sub(r".*, or ", "", KINDS[kind].example)
    assert measure(shown, kind).si > 0
    if kind in BELOW_ZERO:
        assert measure(f"-{shown}", kind).text == f"-{shown}"
        return
    with pytest.raises(MeasureError) as found:
        measure(f"-{shown}", kind)
    assert found.value.code == "measure-negative"
    article = "an" if kind[0] in "aeiou" else "a"
    with pytest.raises(MeasureError, match=f"is not {article} {kind.replace('_', ' ')}"):
        measure("5 ft" if kind in ("mass", "tonnage", "specimen_mass", "force", "test_load") else "5 lb", kind)


@pytest.mark.parametrize(
    "kind, values, decimals",
    [
        ("stress", (790_000.0, 413_685.0), 1),
        ("length", (2.4384,), 2),
        ("thickness", (0.2540, 0.25401), 4),  # 10.0000 in and 10.0004 in
        ("ratio", (0.0, 0.0), 3),
        ("ratio", (0.00002,), 5),
        ("ratio", (0.0, 1e-12), 3),
        ("ratio", (0.0, 1e-9), None),
    ],
)
def test_decimals_tell_values_apart(kind: str, values: tuple[float, ...], decimals: int | None) -> None:
    assert Writer("us").decimals(kind, *values) == decimals
