"""The coefficients of the structural screening, each with its source and standing: reference file screening."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from compliance.facts.common.reference_values import Part, need_not_negative
from compliance.facts.mechanics.gravity import Combination
from compliance.findings import Standing
from compliance.record import record
from compliance.steps import Given, Source, Step


@record
class Coefficient:
    """A number the screening takes for granted, in SI of its kind; `name` says to a reader what it is."""

    name: str
    value: float
    kind: str
    source: Source
    standing: Standing

    def given(self, symbol: str, meaning: str = "") -> Given:
        return Given(symbol, self.value, self.kind, meaning or self.name)

    @property
    def step(self) -> CoefficientStep:
        """The coefficient as a line of its own, with its source and how well it is known."""
        result = Given("", self.value, self.kind, self.standing)
        says, of = f"Coefficient, {self.name}", self.known_by
        return CoefficientStep(
            says, formula="", given=(), result=result, source=of, name=self.name, standing=self.standing
        )

    @property
    def known_by(self) -> Source:
        """Its source, with its standing where the source does not tell it."""
        if self.standing in self.source:
            return self.source
        return Source(f"{self.source}; {self.standing}", self.source.is_doubtful)


Coefficients = Mapping[str, Coefficient]


@record
class CoefficientStep(Step):
    """A worked line that is a coefficient, as the screening takes it for granted."""

    name: str = ""
    standing: Standing = Standing.OPEN


def is_taken(step: Step) -> bool:
    """Whether a worked line is a coefficient."""
    return isinstance(step, CoefficientStep)


@record
class FreeWall:
    """Force coefficient of a wall that stands alone, by its length over its height (ASCE 7-10 Figure 29.4-1)."""

    ratios: tuple[float, ...]
    coefficients: tuple[float, ...]
    times: float
    least: float
    source: Source
    standing: Standing

    def at(self, ratio: float) -> float:
        """Straight between ratios and flat above; below the first only `least` counts. Raises ValueError below zero."""
        need_not_negative(ratio=ratio)
        if ratio < self.ratios[0]:
            return self.least
        points = list(zip(self.ratios, self.coefficients, strict=True))
        for (left, below), (right, above) in pairwise(points):
            if ratio <= right:
                return max(self.times * (below + (above - below) * (ratio - left) / (right - left)), self.least)
        return max(self.times * self.coefficients[-1], self.least)


@record
class SwellingGroups:
    """Soil groups that are taken to swell, whatever else is said of the soil."""

    groups: tuple[str, ...]
    source: str
    standing: Standing


@record
class Screening:
    """All of the reference file. `weights` are densities by part and material, `importance` factors by action and
    risk category."""

    coefficients: Coefficients
    weights: Mapping[str, Coefficients]
    importance: Mapping[str, Coefficients]
    combinations: tuple[Combination, ...]
    combination_source: Source
    combination_standing: Standing
    free_wall: FreeWall
    swelling: SwellingGroups

    def __getitem__(self, name: str) -> Coefficient:
        """Raises KeyError for a coefficient that is not in the file."""
        return self.coefficients[name]

    @classmethod
    def from_values(cls, values: Mapping[str, object]) -> Screening:
        """From the `values` of the reference file. Raises ReferenceValueError."""
        root = Part(values)
        combinations, weights, importance = (root.part(name) for name in ("combinations", "weights", "importance"))
        return cls(
            _coefficients(root.part("coefficients")),
            weights={name: _coefficients(weights.part(name), f"density of the {name}, ") for name in weights},
            importance={
                name: _coefficients(importance.part(name), f"importance factor, {name}, ") for name in importance
            },
            combinations=tuple(_combination(part) for part in combinations.parts("list")),
            combination_source=combinations.source(),
            combination_standing=combinations.standing(),
            free_wall=_free_wall(root.part("free_wall")),
            swelling=_swelling(root.part("swelling")),
        )


def _coefficients(part: Part, group: str = "") -> dict[str, Coefficient]:
    """`group` begins what is said of those that do not say it themselves."""
    found = {}
    for name in part:
        one = part.part(name)
        kind = one.text("kind") if "kind" in one else "ratio"
        value = one.number("value") if kind == "ratio" else one.measure("value", kind)
        says = one.text("says") if "says" in one else group + name.replace("-", " ").replace("_", " ")
        found[name] = Coefficient(says, value=value, kind=kind, source=one.source(), standing=one.standing())
    return found


def _combination(part: Part) -> Combination:
    factors = part.part("factors")
    return Combination(part.text("name"), {case: factors.number(case) for case in factors})


def _free_wall(part: Part) -> FreeWall:
    ratios, coefficients = part.rising("length_over_height"), part.numbers("coefficients")
    if len(ratios) != len(coefficients):
        part.refuse("coefficients", f"must be {len(ratios)} numbers")
    return FreeWall(
        ratios,
        coefficients=coefficients,
        times=part.number("times"),
        least=part.number("least"),
        source=part.source(),
        standing=part.standing(),
    )


def _swelling(part: Part) -> SwellingGroups:
    return SwellingGroups(part.texts("groups"), part.source(), part.standing())
