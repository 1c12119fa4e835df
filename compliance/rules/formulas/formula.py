"""The formula language of rules: arithmetic, comparison, `and or not`, `in`, `min max abs sqrt`, and names.

    formula = parse("wall.height / wall.thickness <= most")
    formula.check({"wall.height": number_of_kind("length"), ...})      # names and dimensions, at load
    holds = formula.compile()                                          # once
    holds({"wall.height": 2.4, "wall.thickness": 0.4, "most": 7.0})    # True, False or None for missing

Nothing else can be reached from a formula: no other call, no attribute of a value, no text of a unit. Errors
are FormulaError with a code that never changes its meaning, and the character they stand at:

formula-syntax, formula-too-long, formula-number, formula-unit, formula-name, formula-call, formula-power (when
read); formula-name, formula-type, formula-dimension, formula-bare-number, formula-temperature, formula-choice
(when checked).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property, lru_cache
from typing import Literal

from compliance.record import record
from compliance.rules.formulas.comparisons import Comparison, comparisons
from compliance.rules.formulas.dimensions import infer, writable
from compliance.rules.formulas.evaluating import Evaluator, compiled
from compliance.rules.formulas.explaining import explained
from compliance.rules.formulas.nodes import (
    Compare,
    FormulaError,
    FormulaUndefined,
    Joined,
    Name,
    Node,
    Number,
    Value,
    Values,
    children,
    is_bare,
    walk,
)
from compliance.rules.formulas.parsing import read
from compliance.rules.formulas.types import (
    ListType,
    NumberType,
    TextType,
    Type,
    Types,
    YesNoType,
    kind_for,
    number_of_kind,
)
from compliance.steps import Step

__all__ = [
    "Comparison",
    "Constant",
    "Evaluator",
    "Formula",
    "FormulaError",
    "FormulaUndefined",
    "ListType",
    "NumberType",
    "TextType",
    "Type",
    "Types",
    "Value",
    "Values",
    "YesNoType",
    "number_of_kind",
    "parse",
]


@record
class Constant:
    """A number written into a formula. `compared`: it is a limit by itself, which belongs under limits."""

    text: str
    value: float
    offset: int
    compared: bool


@record
class Formula:
    """A formula that has been read. Check it once against the types of its names before anything else."""

    text: str
    names: frozenset[str]
    root: Node = field(repr=False)

    def check(self, types: Types) -> Type:
        """What the formula gives, every branch checked. A number comes with the kind to write it in.

        Raises FormulaError for the first thing that does not fit.
        """
        found = infer(self.root, types)
        if not isinstance(found, NumberType):
            return found
        writable(self.root, found)
        return NumberType(found.dimension, kind_for(found))

    def compile(self) -> Evaluator:
        """A function from values (SI; None for missing) to the value of a checked formula.

        It raises FormulaUndefined where there is no value: see there.
        """
        return self._evaluator

    @cached_property
    def _evaluator(self) -> Evaluator:
        return compiled(self.root)

    def comparison(self) -> Comparison | None:
        """The comparison of numbers that the whole formula is, if it is one."""
        found = self.comparisons()
        return found[0] if len(found) == 1 else None

    def comparisons(self) -> tuple[Comparison, ...]:
        """The comparisons of numbers that the formula consists of, joined by `joined`; none if it has other parts.

        A chain `least <= wall.height <= most` is two comparisons joined by `and`.
        """
        return self._comparisons

    @cached_property
    def _comparisons(self) -> tuple[Comparison, ...]:
        return comparisons(self.root, self.text)

    @property
    def joined(self) -> Literal["and", "or", ""]:
        """The outermost joining word."""
        if not isinstance(self.root, Joined):
            return ""
        return "and" if self.root.word == "and" else "or"

    def explain(self, values: Values, labels: Mapping[str, str], kinds: Mapping[str, str]) -> tuple[Step, ...]:
        """The steps to print: what each side of each comparison comes to, and whether it holds.

        `labels` are the symbols for people, by name; `kinds` must have the kind of every name that is a number.
        """
        return explained(self.root, values, labels, kinds)

    def constants(self) -> tuple[Constant, ...]:
        """The numbers written into the formula, powers left out, from left to right."""
        limits = {
            number.start
            for node in walk(self.root)
            if isinstance(node, Compare)
            for side in children(node)
            if is_bare(side)
            for number in walk(side)
        }
        found = {node.start: node for node in walk(self.root) if isinstance(node, Number)}
        return tuple(Constant(node.text, node.value, start, start in limits) for start, node in found.items())


@lru_cache(maxsize=1000)
def parse(text: str) -> Formula:
    """Read a formula; rules say many of them alike. Raises FormulaError with the character where it goes wrong."""
    root = read(text)
    return Formula(text, frozenset(node.name for node in walk(root) if isinstance(node, Name)), root)
