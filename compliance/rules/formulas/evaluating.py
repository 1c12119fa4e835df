"""The value of a formula: each part becomes a closure once, and no tree is walked when values come in.

Values are SI floats, words, yes or no, lists of words, and None for what is missing. None goes through
arithmetic, functions and comparisons; `and` with a false side is false and `or` with a true side is true
whatever else is missing (Kleene's three-valued logic). A side without a value (FormulaUndefined) is treated
alike: it only counts where the other sides do not decide, whatever their order.

Two numbers count as equal within one part in 1e9, so that a value exactly at its limit meets it whatever unit
either was written in. Where a side was added up or subtracted, rounding is measured by the terms, within one
part in 1e12: `a - b >= 0` agrees with `a >= b`.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from compliance.rules.formulas.nodes import (
    NUMERIC,
    Compare,
    FormulaUndefined,
    Joined,
    Listed,
    Member,
    Name,
    Node,
    Not,
    Text,
    Value,
    Values,
    YesNo,
)
from compliance.rules.formulas.numbers import number, rounding_of, value_of
from compliance.rules.formulas.printing import written

RELATIVE = 1e-9

Evaluator = Callable[[Values], Value]
YesNoEvaluator = Callable[[Values], bool | None]

# Each takes left, right and whether they count as equal.
_RELATE: dict[str, Callable[[float, float, bool], bool]] = {
    "<=": lambda left, right, same: same or left < right,
    "<": lambda left, right, same: not same and left < right,
    ">=": lambda left, right, same: same or left > right,
    ">": lambda left, right, same: not same and left > right,
    "==": lambda _left, _right, same: same,
    "!=": lambda _left, _right, same: not same,
}


def compiled(node: Node) -> Evaluator:
    """The closure for a part that has passed its check. Calling it raises FormulaUndefined where there is no
    value, and TypeError where a fact is not of the sort its type promised."""
    if isinstance(node, NUMERIC):
        return number(node)
    match node:
        case Name(name=name):
            return lambda values: value_of(name, values)
        case Text(value=word):
            return lambda values: word
    return yes_no(node)


def yes_no(node: Node) -> YesNoEvaluator:
    """The closure for a part that holds or does not."""
    match node:
        case YesNo(value=value):
            return lambda values: value
        case Name(name=name):
            return lambda values: _yes_no(name, values)
        case Not(of=of):
            return _negated(yes_no(of))
        case Joined():
            return _joined(node)
        case Compare():
            return _compare(node)
        case Member():
            return _member(node)
    raise TypeError(f"{written(node)} is no yes or no")


def _yes_no(name: str, values: Values) -> bool | None:
    value = values.get(name)
    if value is None or isinstance(value, bool):
        return value
    raise TypeError(f"{name} is {value!r}, not a yes or no")


def _negated(inner: YesNoEvaluator) -> YesNoEvaluator:
    def run(values: Values) -> bool | None:
        holds = inner(values)
        return None if holds is None else not holds

    return run


def _joined(node: Joined) -> YesNoEvaluator:
    parts = tuple(map(yes_no, node.parts))
    deciding = node.word == "or"

    def run(values: Values) -> bool | None:
        missing, undefined = False, None
        for part in parts:
            try:
                holds = part(values)
            except FormulaUndefined as error:
                undefined = undefined or error
                continue
            if holds is deciding:
                return deciding
            missing = missing or holds is None
        if undefined:
            raise undefined
        return None if missing else not deciding

    return run


def _compare(node: Compare) -> YesNoEvaluator:
    relate = _RELATE[node.relation]
    if node.relation in ("==", "!=") and not isinstance(node.left, NUMERIC) and not isinstance(node.right, NUMERIC):
        return _equal(compiled(node.left), compiled(node.right), node.relation == "==")
    left, right, rounding = number(node.left), number(node.right), rounding_of(node)

    def run(values: Values) -> bool | None:
        one, other = left(values), right(values)
        if one is None or other is None:
            return None
        return relate(one, other, math.isclose(one, other, rel_tol=RELATIVE, abs_tol=rounding(values)))

    return run


def _equal(left: Evaluator, right: Evaluator, wanted: bool) -> YesNoEvaluator:
    def run(values: Values) -> bool | None:
        one, other = left(values), right(values)
        return None if one is None or other is None else _same(one, other) is wanted

    return run


def _same(one: Value, other: Value) -> bool:
    if isinstance(one, bool) and isinstance(other, bool):
        return one is other
    if isinstance(one, str) and isinstance(other, str):
        return one == other
    if isinstance(one, bool) or isinstance(other, bool) or not isinstance(one, float | int):
        raise TypeError(f"{one!r} and {other!r} cannot be compared")
    if not isinstance(other, float | int):
        raise TypeError(f"{one!r} and {other!r} cannot be compared")
    return math.isclose(one, other, rel_tol=RELATIVE)


def _member(node: Member) -> YesNoEvaluator:
    item, listed = compiled(node.item), _listed(node.among)

    def run(values: Values) -> bool | None:
        one, among = item(values), listed(values)
        if one is None or among is None:
            return None
        if any(other is not None and _same(one, other) for other in among):
            return not node.negated
        return None if None in among else node.negated

    return run


def _listed(node: Node) -> Callable[[Values], tuple[Value, ...] | None]:
    if isinstance(node, Listed):
        parts = tuple(map(compiled, node.items))
        return lambda values: tuple(part(values) for part in parts)

    inner = compiled(node)

    def run(values: Values) -> tuple[Value, ...] | None:
        found = inner(values)
        if found is None or isinstance(found, tuple | frozenset):
            return None if found is None else tuple(found)
        raise TypeError(f"{written(node)} is {found!r}, not a list")

    return run
