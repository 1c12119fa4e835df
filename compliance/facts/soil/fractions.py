"""What the soil tests share: fractions and their size limits, shares, remarks, sizes and times in sentences."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import Literal

from compliance.facts.common.reference_values import Part
from compliance.record import record

Values = Mapping[str, object]
Basis = Literal["settled depth", "dry weight"]

CLAY, SILT, FINE_SAND, COARSE_SAND, SAND, GRAVEL = "clay", "silt", "fine sand", "coarse sand", "sand", "gravel"


class SoilError(ValueError):
    """A test record that cannot be worked with, in one plain sentence."""


@record
class Remark:
    """Something the reader of a result must know. `code` never changes its meaning once published."""

    code: str
    says: str


@record
class GrainSizes:
    """Upper size limit of clay, silt, fine sand and sand in m, under the name of their system.

    `fine_sand` parts fine sand from coarse sand; None where the system leaves sand whole.
    """

    system: str
    clay: float
    silt: float
    sand: float
    fine_sand: float | None = None

    def __post_init__(self) -> None:
        limits = [size for size in (0.0, self.clay, self.silt, self.fine_sand, self.sand, math.inf) if size is not None]
        if not all(low < high for low, high in pairwise(limits)):
            raise SoilError(f"the size limits of {self.system!r} do not rise from clay to sand")

    @classmethod
    def from_values(cls, values: Values, system: str) -> GrainSizes:
        """The limits of `system` from the values of the settling reference. Raises ReferenceValueError."""
        table = Part(values).part("sizes").part(system)
        fine = table.measure("fine_sand", "grain_size") if "fine_sand" in table else None
        clay, silt, sand = (table.measure(name, "grain_size") for name in ("clay", "silt", "sand"))
        return cls(system, clay=clay, silt=silt, sand=sand, fine_sand=fine)


@record
class SoilShares:
    """Clay, silt and sand as shares of the fine earth (all below the sand limit); they sum to one.

    `fine_sand` and `coarse_sand` are shares of the fine earth and sum to `sand`; None where not told apart.
    `gravel` is the share of the whole sample above the sand limit; None where nobody measured it.
    """

    clay: float
    silt: float
    sand: float
    sizes: str
    basis: Basis
    fine_sand: float | None = None
    coarse_sand: float | None = None
    gravel: float | None = None

    def __post_init__(self) -> None:
        known = [self.clay, self.silt, self.sand, self.fine_sand, self.coarse_sand, self.gravel]
        if not all(0 <= share <= 1 for share in known if share is not None):
            raise SoilError("a share of soil lies outside 0 to 100 %")
        if not math.isclose(self.clay + self.silt + self.sand, 1.0, abs_tol=1e-6):
            raise SoilError("the shares of clay, silt and sand do not add up to 100 %")

    def fractions(self) -> dict[str, float]:
        """Shares of the fine earth by name, as blending takes them; sand in two where it was told apart."""
        if self.fine_sand is None or self.coarse_sand is None:
            return {CLAY: self.clay, SILT: self.silt, SAND: self.sand}
        return {CLAY: self.clay, SILT: self.silt, FINE_SAND: self.fine_sand, COARSE_SAND: self.coarse_sand}


def percent(share: float) -> str:
    """A share for a sentence: `12.5 %`."""
    return f"{100 * share:.1f}".removesuffix(".0") + " %"


def millimetres(size: float) -> str:
    """A grain size in m for a sentence: `0.05 mm`."""
    return f"{1000 * size:.3g} mm"


def time_kind(seconds: float) -> str:
    """The kind of measure a waiting time is written in, so that three digits are left of it."""
    if seconds < 600:
        return "seconds"
    return "minutes" if seconds < 7200 else "time"


def duration(seconds: float) -> str:
    """A waiting time for a sentence: `45 s`, `28 min`, `7.7 h`."""
    if seconds < 600:
        return f"{seconds:.3g} s"
    return f"{seconds / 60:.3g} min" if seconds < 7200 else f"{seconds / 3600:.3g} h"
