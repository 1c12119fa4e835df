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
from compliance.steps import Given, Step


@record
class BuildingCoefficients:
    """Gust factor G and Cp of whole walls; `leeward` by length over width, length being along the wind."""

    gust: float
    windward: float
    side: float
    ratios: tuple[float, ...]
    leeward: tuple[float, ...]
    source: str
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
        return cls(*numbers, ratios, leeward, part.text("source"), part.standing())

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
    across = max(q * c.gust * (c.windward - lee), edition.least_pressure)
    pressure, gust = Given("q", q, "pressure"), Given("G", c.gust, "ratio", "gust factor")
    inside = Given("GCpi", internal, "ratio", "internal pressure coefficient")

    def one(says: str, formula: str, cp: float, result: float) -> Step:
        given = (pressure, gust, Given("Cp", cp, "ratio"), inside)
        return Step(says, formula, given, Given("p", result, "pressure"), c.source)

    windward = q * (c.gust * c.windward + internal)
    leeward, side = (q * (c.gust * cp - internal) for cp in (lee, c.side))
    ends = (Given("Cpw", c.windward, "ratio", "windward"), Given("Cpl", lee, "ratio", "leeward"))
    least = Given("pmin", edition.least_pressure, "pressure", "least pressure")
    steps = (
        one("Windward wall", "q × (G × Cp + GCpi)", c.windward, windward),
        one("Leeward wall", "q × (G × Cp − GCpi)", lee, leeward),
        one("Side walls", "q × (G × Cp − GCpi)", c.side, side),
        Step(
            "Windward and leeward walls together",
            "max(q × G × (Cpw − Cpl), pmin)",
            (pressure, gust, *ends, least),
            Given("p", across, "pressure"),
            c.source,
        ),
    )
    standing = lowest([edition.standing, c.standing]) or Standing.OPEN
    return BuildingPressures(windward, leeward, side, across, standing, steps)
