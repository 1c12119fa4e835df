"""Steps that come from a formula: their numbers are put in along the tree, not by replacing text, and with as many
figures as it takes that the line, worked out from what is printed, gives the printed result."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import lru_cache

from compliance.record import record
from compliance.rules.formulas.nodes import Call, FormulaUndefined, Node, walk
from compliance.rules.formulas.numbers import OVER_A_SERIES, NumberEvaluator, number
from compliance.rules.formulas.printing import written_with_values
from compliance.rules.formulas.symbols import GRAVITY, PI
from compliance.steps import Given, Step
from compliance.units import Writer

_CONSTANTS = {one.printed: one.value for one in (GRAVITY, PI)}
_MOST_EXTRA = 5  # figures more than usual, for one number
_FITS = 1e-6


@record
class FormulaStep(Step):
    """A step that puts its numbers in along the tree, so that every bracket stands where it must.

    `named` gives the values that stand for each name: one, or those of a list.
    """

    node: Node | None = None
    named: tuple[tuple[str, tuple[Given, ...]], ...] = ()

    def numbers_put_in(self, writer: Writer) -> str:
        if self.node is None or not self.named:
            return ""
        extra = self._extra_figures(writer)
        values = {
            name: ", ".join(each.written(writer, extra.get(name, 0)) for each in given) or "none"
            for name, given in self.named
        }
        return written_with_values(self.node, lambda name: values[name])

    def put_in(self, given: Given, writer: Writer) -> str:
        extra = self._extra_figures(writer)
        name = next((name for name, several in self.named if given in several), "")
        return given.written(writer, extra.get(name, 0))

    def _extra_figures(self, writer: Writer) -> Mapping[str, int]:
        """Figures beyond the usual for each name; none where the line is no number or holds what is not one."""
        return _extra_figures(self, writer) if isinstance(self.result.value, float) else {}


@lru_cache(maxsize=4096)
def _extra_figures(step: FormulaStep, writer: Writer) -> Mapping[str, int]:
    """Enough that the numbers as printed give the printed result within one unit of its last digit: figures are
    added, one at a time, to the number whose rounding moves the result most."""
    result, given = step.result, {name: several[0] for name, several in step.named if len(several) == 1}
    exact = {name: found for name, one in given.items() if (found := _number_of(one)) is not None}
    evaluate = _evaluator(step.node) if step.node and len(exact) == len(step.named) else None
    assert isinstance(result.value, float)
    if evaluate is None or not math.isfinite(result.value):
        return {}
    last = writer.last_digit(result.value, result.kind)
    printed = writer.written_number(writer.as_printed(result.value, result.kind), result.kind)
    extra = {name: 0 for name, one in given.items() if isinstance(one.value, float) and math.isfinite(one.value)}

    def off(*names: str) -> float:
        rounded = {name: writer.as_printed(exact[name], given[name].kind, extra[name]) for name in names}
        try:
            found = evaluate({**exact, **rounded})
        except FormulaUndefined:
            return math.inf
        return math.inf if found is None else abs(writer.written_number(found, result.kind) - printed)

    if off() > last * (1 + _FITS):  # the result is no more than named here: nothing printed gives it
        return {}
    while off(*extra) > last * (1 + _FITS):
        finer = [name for name in extra if extra[name] < _MOST_EXTRA]
        if not finer:
            return {}
        extra[max(finer, key=off)] += 1
    return {name: count for name, count in extra.items() if count}


def _number_of(given: Given) -> float | None:
    if isinstance(given.value, str):
        found = _CONSTANTS.get(given.value)
        try:
            return float(given.value) if found is None else found
        except ValueError:
            return None
    return float(given.value)


@lru_cache(maxsize=1024)
def _evaluator(node: Node) -> NumberEvaluator | None:
    """None for a tree that cannot be worked out as it is printed: with a series of a rule, or a long one with dots."""
    if any(isinstance(one, Call) and one.function in OVER_A_SERIES and len(one.arguments) == 1 for one in walk(node)):
        return None
    try:
        return number(node, finite=False)
    except TypeError:
        return None


@record
class StatementStep(FormulaStep):
    """A comparison or another statement: "check: h / t ≤ most; 6 ≤ 7: holds". `sides` are those of numbers."""

    relation: str = ""
    sides: tuple[Given, Given] | None = None

    def numbers_put_in(self, writer: Writer) -> str:
        """The sides with as many decimals as it takes to tell them apart."""
        if self.sides is None:
            return FormulaStep.numbers_put_in(self, writer)
        one, other = self.sides
        if isinstance(one.value, str) or isinstance(other.value, str):
            return f"{one.written(writer)} {self.relation} {other.written(writer)}"
        left, right = writer.pair(one.value, other.value, one.kind)
        return f"{left} {self.relation} {right}"

    def line(self, writer: Writer) -> str:
        numbers = self.numbers_put_in(writer)
        middle = f"{self.formula}; {numbers}" if numbers and numbers != self.formula else self.formula
        return f"{self.says}: {middle}: {self.result.written(writer)}"
