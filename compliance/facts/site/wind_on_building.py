"""Wind on whole walls, for the building as one body: p = q G Cp, with the internal pressure where one wall is meant.

Directional procedure of ASCE 7 chapter 27 for a building with a rectangular plan; the wind blows along its length.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from compliance.facts.common.reference_values import Part, need_not_negative
from compliance.facts.site.wind import WindEdition, WindSite, pressure_at
from compliance.findings import Standing, lowest
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Source, Step


@record
class BuildingCoefficients:
    """Gust factor G and Cp of whole walls; `leeward` by length over width, length being along the wind."""

    gust: float
    windward: float
    side: float
    ratios: tuple[float, ...]
    leeward: tuple[float, ...]
    source: Source
    standing: Standing

    @classmethod
    def from_values(cls, values: Mapping[str, object]) -> BuildingCoefficients:
        """From the `values` of asce7-wind. Raises ReferenceValueError."""
        part = Part(values).part("building")
        lee = part.part("leeward")
        ratios, leeward = lee.rising("length_over_width"), lee.numbers("coefficients")
        if len(ratios) != len(leeward):
            lee.refuse("coefficients", f"must be {len(ratios)} numbers")
        numbers = (part.number("gust"), part.number("windward"), part.number("side"))
        return cls(*numbers, ratios, leeward, part.source(), part.standing())

    def leeward_of(self, ratio: float) -> float:
        """Cp of the wall in the lee, straight between the ratios and flat beyond them. Raises ValueError below zero."""
        need_not_negative(ratio=ratio)
        if ratio <= self.ratios[0]:
            return self.leeward[0]
        for (left, below), (right, above) in pairwise(zip(self.ratios, self.leeward, strict=True)):
            if ratio <= right:
                return below + (above - below) * (ratio - left) / (right - left)
        return self.leeward[-1]


@record
class BuildingPressures:
    """Pressures [Pa] on whole walls: `windward` above zero pushes in, `leeward` and `side` below zero pull out, each
    with the internal pressure on the worse side. `across` is what windward and leeward wall pass on together."""

    windward: float
    leeward: float
    side: float
    across: float
    standing: Standing
    steps: tuple[Step, ...]


def building_pressures(
    height: float,
    length_over_width: float,
    internal: float,
    site: WindSite,
    edition: WindEdition,
    coefficients: BuildingCoefficients,
) -> BuildingPressures:
    """`height` is the mean roof height [m], at which q is taken on every wall: on the windward one that is on the safe
    side below the roof. `internal` is GCpi. Raises ValueError for an unknown exposure or a value below zero.
    """
    need_not_negative(internal=internal)
    q = pressure_at(height, site, edition, for_walls=False)
    c, lee = coefficients, coefficients.leeward_of(length_over_width)
    inside = Given("GCpi", internal, "ratio", "internal pressure coefficient")
    windward = on_windward_wall.sourced(c.source)(q, c.gust, c.windward, inside)
    leeward, side = (
        one.sourced(c.source)(q, c.gust, cp, inside)
        for one, cp in ((on_other_wall.titled("Leeward wall"), lee), (on_other_wall.titled("Side walls"), c.side))
    )
    across = on_both_walls.sourced(c.source)(q, c.gust, c.windward, lee, edition.least_pressure)
    found = windward, leeward, side, across
    standing = lowest([edition.standing, c.standing]) or Standing.OPEN
    steps = tuple(one.step() for one in found)
    return BuildingPressures(
        float(windward), leeward=float(leeward), side=float(side), across=float(across), standing=standing, steps=steps
    )


_PRESSURE, _GUST = Symbol("q", "pressure"), Symbol("G", "ratio", "gust factor")

on_windward_wall = equation(
    "Windward wall", "pressure * (gust * external + internal)", Symbol("p", "pressure"), "",
    pressure=_PRESSURE, gust=_GUST, external=Symbol("Cp"), internal=Symbol("GCpi"),
)  # fmt: skip

on_other_wall = equation(
    "Other walls", "pressure * (gust * external - internal)", Symbol("p", "pressure"), "",
    pressure=_PRESSURE, gust=_GUST, external=Symbol("Cp"), internal=Symbol("GCpi"),
)  # fmt: skip

on_both_walls = equation(
    "Windward and leeward walls together", "max(pressure * gust * (windward - leeward), least)",
    Symbol("p", "pressure"), "", pressure=_PRESSURE, gust=_GUST, windward=Symbol("Cpw", "ratio", "windward"),
    leeward=Symbol("Cpl", "ratio", "leeward"), least=Symbol("pmin", "pressure", "least pressure"),
)  # fmt: skip

EQUATIONS = (on_windward_wall, on_other_wall, on_both_walls)
