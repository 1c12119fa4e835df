"""Steps that come from a formula: their numbers are put in along the tree, not by replacing text."""

from __future__ import annotations

from compliance.record import record
from compliance.rules.formulas.nodes import Node
from compliance.rules.formulas.printing import written_with_values
from compliance.steps import Given, Step
from compliance.units import Writer


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
        values = {name: ", ".join(each.written(writer) for each in given) or "none" for name, given in self.named}
        return written_with_values(self.node, lambda name: values[name])


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
