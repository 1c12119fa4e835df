"""Sizes that nothing built or tested has: a slip of digits or of the unit, whatever the rules say of it.

Far wider than what is usual, which `facts.catalogue` warns of. Zero is within reach of every kind; temperatures,
ratios and counts are not bounded here.
"""

from __future__ import annotations

_REACH: dict[str, tuple[float, float]] = {
    # kind: least and most, in SI; lengths from a millionth of a millimetre to ten kilometres, and so on
    "length": (1e-9, 1e4), "thickness": (1e-9, 1e4), "coordinate": (0.0, 1e7), "layer_height": (1e-9, 1e2),
    "grain_size": (1e-10, 1e2), "area": (1e-18, 1e9), "section_area": (1e-12, 1e4), "section_modulus": (1e-16, 1e4),
    "second_moment": (1e-20, 1e4), "volume": (1e-12, 1e9), "vessel_volume": (1e-9, 1e6), "mass": (1e-6, 1e9),
    "tonnage": (1e-6, 1e9), "force": (1e-3, 1e10), "moment": (1e-4, 1e12), "line_moment": (1e-3, 1e10),
    "line_load": (1e-3, 1e9), "pressure": (1e-3, 1e9), "stress": (1e-1, 1e12), "density": (1e-2, 3e4),
    "grain_density": (1.0, 3e4), "speed": (1e-3, 1e3), "wind_factor": (1e-6, 1e3), "acceleration": (1e-6, 1e3),
    "viscosity": (1e-9, 1e3), "time": (0.0, 1e10), "age": (0.0, 1e11), "seconds": (0.0, 1e10), "minutes": (0.0, 1e10),
    "stress_rate": (1e-3, 1e12), "force_rate": (1e-6, 1e10), "angle": (0.0, 10.0), "share": (0.0, 100.0),
    "thermal_resistance": (1e-6, 1e3), "heat_capacity": (1.0, 1e9), "specific_heat": (1.0, 1e6),
    "conductivity": (1e-4, 1e3), "thermal_transmittance": (1e-4, 1e3),
    "specimen_length": (1e-9, 1e4), "specimen_mass": (1e-6, 1e9), "test_load": (1e-3, 1e10),
}  # fmt: skip
_ALL = (0.0, float("inf"))


def out_of_reach(value: float, kind: str) -> bool:
    """Whether `value` (SI) is a size that nothing of this kind has."""
    least, most = _REACH.get(kind, _ALL)
    return value != 0 and not least <= abs(value) <= most
