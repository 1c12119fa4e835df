"""What is blended and what for: materials with their fractions, and the mix aimed for."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Literal, get_args

from compliance.facts.common.reference_values import Part
from compliance.facts.soil.fractions import Basis, SoilError, Values
from compliance.record import record

TargetBasis = Literal["volume", "dry weight"]


@record
class Material:
    """A soil or an aggregate with its fractions, which sum to one. `bulk_density` is loose, in kg/m³."""

    name: str
    shares: Mapping[str, float]
    by: Basis = "dry weight"
    bulk_density: float | None = None

    def __post_init__(self) -> None:
        if not all(share >= 0 for share in self.shares.values()) or not math.isclose(
            math.fsum(self.shares.values()), 1.0, abs_tol=1e-6
        ):
            raise SoilError(f"the shares of {self.name} do not add up to 100 %")
        if self.bulk_density is not None and not (self.bulk_density > 0 and math.isfinite(self.bulk_density)):
            raise SoilError(f"the bulk density of {self.name} must be above zero")


@record
class Component:
    """What the target asks for: one fraction, or several added up, and its share of the whole."""

    of: tuple[str, ...]
    share: float

    @property
    def name(self) -> str:
        return " and ".join(self.of)


@record
class Target:
    """The mix aimed for. `tolerance` is the distance that counts as reached; `lacking` says what to look for. `by` is
    what its parts are of: of one by volume, shares by weight say nothing unless the bulk densities are known."""

    title: str
    components: tuple[Component, ...]
    tolerance: float
    lacking: Mapping[str, str]
    source: str
    by: TargetBasis = "dry weight"

    @classmethod
    def from_values(cls, values: Values, name: str) -> Target:
        """The target called `name` of the mix practice reference. Raises ReferenceValueError."""
        root = Part(values)
        target = root.part("targets").part(name)
        parts = target.parts("components")
        total = sum(part.number("parts") for part in parts)
        named = [fraction for part in parts for fraction in part.texts("of")]
        if not parts or any(not part.number("parts") > 0 for part in parts) or len(named) != len(set(named)):
            target.refuse("components", "needs components with parts above zero that share no fraction")
        components = tuple(Component(part.texts("of"), part.number("parts") / total) for part in parts)
        if target.text("by") not in get_args(TargetBasis):
            target.refuse("by", f"must be one of {', '.join(get_args(TargetBasis))}")
        words = root.part("lacking")
        lacking = {fraction: words.text(fraction) for fraction in words}
        return cls(
            target.text("title"),
            components=components,
            tolerance=root.measure("tolerance", "share"),
            lacking=lacking,
            source=target.text("source"),
            by="volume" if target.text("by") == "volume" else "dry weight",
        )
