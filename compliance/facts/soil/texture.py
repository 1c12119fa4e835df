"""USDA texture class of a soil by the rules of the classes; the outlines of the triangle are for drawing only.

Shares are compared as whole numbers of a very fine division, sand being what clay and silt leave, so that a share
on a limit falls on its stated side and every soil falls in exactly one class.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping

from compliance.facts.common.reference_values import Part
from compliance.facts.soil.fractions import CLAY, SAND, SILT, SoilError, SoilShares, Values, percent
from compliance.record import record
from compliance.rules.formulas.equations import Equation, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Step

_DIVISION = 10**11
_RELATIONS: dict[str, tuple[str, Callable[[float, float], bool]]] = {
    "below": ("below", operator.lt),
    "at_most": ("at most", operator.le),
    "at_least": ("at least", operator.ge),
    "above": ("above", operator.gt),
}


@record
class Line:
    """One line of a class: a weighted sum of shares against a limit, both as shares of one."""

    weights: Mapping[str, float]
    relation: str
    limit: float

    def holds(self, parts: Mapping[str, int]) -> bool:
        total = sum(weight * parts[name] for name, weight in self.weights.items())
        return _RELATIONS[self.relation][1](total, round(self.limit * _DIVISION))


@record
class TextureRules:
    """The classes with their lists of lines, and the corners (clay, silt, sand) of their outlines, shares of one."""

    sizes: str
    classes: Mapping[str, tuple[tuple[Line, ...], ...]]
    outlines: Mapping[str, tuple[tuple[float, float, float], ...]]

    @classmethod
    def from_values(cls, values: Values) -> TextureRules:
        """From the values of the texture reference. Raises ReferenceValueError."""
        root = Part(values)
        corners = root.part("outlines").part("corners")
        return cls(
            root.text("sizes"),
            {part.text("name"): _alternatives(part) for part in root.parts("classes")},
            {name: tuple(_corner(corners, name, item) for item in corners.items(name)) for name in corners},
        )


@record
class Texture:
    """The class of a soil with the lines that put it there; None with the reason where it cannot be told."""

    name: str | None
    steps: tuple[Step, ...] = ()
    reason: str = ""


def texture_classes(rules: TextureRules, clay: float, silt: float) -> tuple[str, ...]:
    """Every class that holds for shares of one of `clay` and `silt`, the rest being sand: with sound rules, one."""
    parts = _parts(clay, silt)
    return tuple(name for name, lists in rules.classes.items() if _holding(lists, parts) is not None)


def texture_class(rules: TextureRules, shares: SoilShares) -> Texture:
    """The texture class of `shares`; None where they were parted at other sizes than the classes are made for."""
    if shares.sizes != rules.sizes:
        other = f"the shares are parted at the sizes of {shares.sizes}, the classes need those of {rules.sizes}"
        return Texture(None, reason=other)
    names = texture_classes(rules, shares.clay, shares.silt)
    if len(names) != 1:
        found = " and ".join(names) or "no class"
        return Texture(None, reason=f"the rules of the reference put this soil in {found}; they need mending")
    lines = _holding(rules.classes[names[0]], _parts(shares.clay, shares.silt))
    assert lines is not None
    return Texture(names[0], tuple(_step(names[0], line, shares) for line in lines))


def _parts(clay: float, silt: float) -> dict[str, int]:
    clay_parts, silt_parts = round(clay * _DIVISION), round(silt * _DIVISION)
    sand_parts = _DIVISION - clay_parts - silt_parts
    if min(clay_parts, silt_parts, sand_parts) < 0:
        raise SoilError("the shares of clay and silt must lie between 0 and 100 % and leave no less than no sand")
    return {CLAY: clay_parts, SILT: silt_parts, SAND: sand_parts}


def _holding(lists: tuple[tuple[Line, ...], ...], parts: Mapping[str, int]) -> tuple[Line, ...] | None:
    return next((lines for lines in lists if all(line.holds(parts) for line in lines)), None)


def _step(name: str, line: Line, shares: SoilShares) -> Step:
    held = {CLAY: shares.clay, SILT: shares.silt, SAND: shares.sand}
    says = f"{name.capitalize()} asks for {_RELATIONS[line.relation][0]} {percent(line.limit)}"
    return weighted_sum(line.weights).titled(says)(*(held[part] for part in line.weights)).step()


def weighted_sum(weights: Mapping[str, float]) -> Equation:
    """The side of a line that its limit stands against."""
    terms = (part if weight == 1 else f"{weight:g} * {part}" for part, weight in weights.items())
    symbols = {part: Symbol(part, "share", part) for part in weights}
    return equation("Weighted shares", " + ".join(terms), Symbol("", "share"), "USDA texture classes", **symbols)


EQUATIONS = (weighted_sum({CLAY: 1.0, SILT: 1.5}),)


def _alternatives(part: Part) -> tuple[tuple[Line, ...], ...]:
    lists: list[tuple[Line, ...]] = []
    for place, item in enumerate(part.items("any_of"), start=1):
        lines = Part({"lines": item}, f"{part.path}.any_of.{place}").parts("lines")
        if not lines:
            part.refuse("any_of", "holds an empty list, which every soil would meet")
        lists.append(tuple(map(_line, lines)))
    return tuple(lists)


def _line(part: Part) -> Line:
    of = part.part("of")
    weights = {name: of.number(name) for name in of}
    if not weights or not weights.keys() <= {CLAY, SILT, SAND}:
        part.refuse("of", "must weigh clay, silt or sand and nothing else")
    relations = [name for name in part if name != "of"]
    if len(relations) != 1 or relations[0] not in _RELATIONS:
        part.refuse("of", f"needs exactly one limit beside it: {', '.join(_RELATIONS)}")
    return Line(weights, relations[0], part.measure(relations[0], "share"))


def _corner(corners: Part, name: str, item: object) -> tuple[float, float, float]:
    found = Part({name: item}, corners.path).numbers(name)
    if len(found) != 3 or sum(found) != 100 or min(found) < 0:
        corners.refuse(name, "needs corners of clay, silt and sand in percent that add up to 100")
    return found[0] / 100, found[1] / 100, found[2] / 100
