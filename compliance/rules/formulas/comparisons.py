"""The comparisons of a formula, turned so that the value stands left and its limit right."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from compliance.record import record
from compliance.rules.formulas.dimensions import infer
from compliance.rules.formulas.evaluating import YesNoEvaluator, yes_no
from compliance.rules.formulas.nodes import NUMERIC, Compare, Joined, Node, Values, has_facts
from compliance.rules.formulas.numbers import NumberEvaluator, number
from compliance.rules.formulas.types import NumberType, Types, kind_for, number_of_kind
from compliance.units import KINDS

_TURNED = {"<=": ">=", "<": ">", ">=": "<=", ">": "<", "==": "==", "!=": "!="}


@record
class Comparison:
    """`value relation limit`. The value is the side with facts in it; the left one where both sides have facts,
    or neither. `value`, `limit` and `holds` take values and return None where one is missing.
    """

    relation: str
    value_text: str
    limit_text: str
    node: Compare = field(repr=False)
    value: NumberEvaluator = field(compare=False, repr=False)
    limit: NumberEvaluator = field(compare=False, repr=False)
    holds: YesNoEvaluator = field(compare=False, repr=False)
    equal: YesNoEvaluator = field(compare=False, repr=False)

    def kind(self, kinds: Mapping[str, str]) -> str:
        """The kind to write both sides in; `kinds` gives that of each name that is a number."""
        return kind_of_sides(self.node, number_types(kinds))

    def sides(self, values: Values) -> tuple[float | None, float | None]:
        """Value and limit. Raises FormulaUndefined as they do."""
        return self.value(values), self.limit(values)

    def margin(self, values: Values, sides: tuple[float | None, float | None] | None = None) -> float | None:
        """The share of the limit that is left: above 0 inside, 0 at the limit, below 0 outside.

        None where a value is missing, the limit is zero, or the relation is equality. `sides`, where they have been
        worked out before. Raises FormulaUndefined as they do.
        """
        value, limit = sides or self.sides(values)
        if value is None or limit is None or limit == 0 or self.relation in ("==", "!="):
            return None
        if self.equal(values):
            return 0.0
        left = (limit - value) / abs(limit)
        return left if self.relation in ("<=", "<") else -left


def _comparison(node: Compare, text: str) -> Comparison:
    turned = value_left(node)
    value, limit = turned.left, turned.right
    equal = Compare(node.start, end=node.end, relation="==", left=value, right=limit)
    return Comparison(
        turned.relation,
        value_text=text[value.start : value.end],
        limit_text=text[limit.start : limit.end],
        node=turned,
        value=number(value),
        limit=number(limit),
        holds=yes_no(turned),
        equal=yes_no(equal),
    )


def comparisons(root: Node, text: str) -> tuple[Comparison, ...]:
    """Those a formula consists of: one, or several joined by one word throughout; else none.

    Equality of two bare names may be one of words, and is left out.
    """
    parts = _flat(root)
    if all(isinstance(part, Compare) and _of_numbers(part) for part in parts):
        return tuple(_comparison(part, text) for part in parts if isinstance(part, Compare))
    return ()


def _flat(root: Node) -> tuple[Node, ...]:
    """The parts that the outermost `and` or `or` joins, whatever brackets group them."""
    if not isinstance(root, Joined):
        return (root,)
    parts: list[Node] = []
    for part in root.parts:
        parts += _flat(part) if isinstance(part, Joined) and part.word == root.word else (part,)
    return tuple(parts)


def value_left(node: Compare) -> Compare:
    if has_facts(node.right) and not has_facts(node.left):
        return Compare(node.start, end=node.end, relation=_TURNED[node.relation], left=node.right, right=node.left)
    return node


def _of_numbers(node: Compare) -> bool:
    ordered = node.relation not in ("==", "!=")
    return ordered or isinstance(node.left, NUMERIC) or isinstance(node.right, NUMERIC)


def number_types(kinds: Mapping[str, str]) -> Types:
    return {name: number_of_kind(kind) for name, kind in kinds.items() if kind in KINDS}


def kind_of_sides(node: Compare, types: Types) -> str:
    left, right = infer(node.left, types), infer(node.right, types)
    if isinstance(left, NumberType) and isinstance(right, NumberType):
        return kind_for(left, right)
    raise TypeError("only numbers have a kind")
