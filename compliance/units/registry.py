"""The one pint registry, read from `units.txt`, and the table of factors frozen from it.

    python -m compliance.units.registry > compliance/units/factors.py

writes the table again after a change to `units.txt`; a test holds the two in step.
"""

from __future__ import annotations

from functools import cache
from importlib import resources

import pint

from compliance.units.unit_table import SPELLINGS, Dimension

_HEAD = '''"""Factor, offset and dimension of each unit, frozen by pint from units.txt. Made by
`python -m compliance.units.registry`; do not edit. Exponents: metre, kilogram, second, kelvin."""

FACTORS: dict[str, tuple[float, float, tuple[int, int, int, int]]] = {
'''


@cache
def registry() -> pint.UnitRegistry[float]:
    """The one registry of this process, read from `units.txt` alone."""
    text = resources.files("compliance.units").joinpath("units.txt").read_text(encoding="utf-8")
    return pint.UnitRegistry(text.splitlines(), on_redefinition="raise", cache_folder=None)


def derive(name: str) -> tuple[float, float, tuple[int, int, int, int]]:
    """Factor, offset and exponents of the unit called `name` in units.txt, as pint has them."""
    pint_unit = registry().Unit(name)
    one = float(registry().Quantity(1.0, pint_unit).to_base_units().magnitude)
    zero = float(registry().Quantity(0.0, pint_unit).to_base_units().magnitude)
    powers = {name: round(float(power)) for name, power in pint_unit.dimensionality.items()}  # type: ignore[arg-type]
    length, mass, time, temperature = (powers.get(f"[{base}]", 0) for base in Dimension._fields)
    return one - zero, zero, (length, mass, time, temperature)


def frozen() -> str:
    """The text of factors.py."""
    names = sorted(set(SPELLINGS.values()))
    return _HEAD + "".join(f'    "{name}": {derive(name)!r},\n' for name in names) + "}\n"


if __name__ == "__main__":
    print(frozen(), end="")
