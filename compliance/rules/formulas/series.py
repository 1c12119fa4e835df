"""Trees of an equation changed for print and for its check: series written out, zeros left aside."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, reduce
from typing import TypeGuard

from compliance.record import replace
from compliance.rules.formulas.nodes import Arithmetic, Call, Name, Negative, Node, Number, Power, Raised, Text, walk
from compliance.rules.formulas.numbers import OVER_A_SERIES

WRITTEN_OUT = 10
"""A longer series is written as its first two, its last and dots between them."""
DOTS = "…"


@lru_cache(maxsize=1000)
def series_written_out(node: Node, counts: tuple[tuple[str, int], ...]) -> Node:
    """`sum(w)` as w1 + w2, `max(w)` as max(w1, w2), where `counts` says how many each series has: the names of its
    numbers are `w.1`, `w.2`."""
    many = dict(counts)

    def items(part: Call) -> tuple[Node, ...]:
        names = {one.name for one in walk(part) if isinstance(one, Name)}
        count = max(many[name] for name in names if name in many)
        found = tuple(_numbered(part.arguments[0], many, place) for place in range(1, count + 1))
        return found if count <= WRITTEN_OUT else (*found[:2], Text(part.start, part.end, DOTS), found[-1])

    def added(part: Node, terms: tuple[Node, ...]) -> Node:
        return reduce(lambda left, right: Arithmetic(part.start, end=part.end, sign="+", left=left, right=right), terms)

    def change(part: Node) -> Node | None:
        if isinstance(part, Arithmetic) and part.sign == "+" and _is_over_a_series(part.right, "sum"):
            return added(part, (_changed(part.left, change), *items(part.right)))
        if not _is_over_a_series(part, *OVER_A_SERIES):
            return None
        if part.function != "sum":
            return replace(part, arguments=items(part))
        terms = items(part)
        return added(part, terms) if terms else Number(part.start, part.end, 0.0, "0")

    return _changed(node, change)


def _is_over_a_series(part: Node, *functions: str) -> TypeGuard[Call]:
    return isinstance(part, Call) and part.function in functions and len(part.arguments) == 1


def _numbered(node: Node, many: dict[str, int], place: int) -> Node:
    def change(part: Node) -> Node | None:
        named = isinstance(part, Name) and part.name in many
        return replace(part, name=f"{part.name}.{place}") if named and isinstance(part, Name) else None

    return _changed(node, change)


def without_zeros(node: Node) -> Node:
    """The tree without the zeros of `max(a, 0)` and `min(a, 0)`: zero is a measure of every kind."""

    def change(part: Node) -> Node | None:
        if isinstance(part, Call) and part.function in ("min", "max"):
            kept = tuple(one for one in part.arguments if not (isinstance(one, Number) and one.value == 0))
            if kept and len(kept) < len(part.arguments):
                return _changed(replace(part, arguments=kept), change)
        return None

    return _changed(node, change)


def _changed(node: Node, change: Callable[[Node], Node | None]) -> Node:
    """The tree with each part for which `change` gives another replaced by it."""
    changed = change(node)
    if changed is not None:
        return changed
    match node:
        case Negative(of=of):
            return replace(node, of=_changed(of, change))
        case Arithmetic(left=left, right=right):
            return replace(node, left=_changed(left, change), right=_changed(right, change))
        case Power(base=base):
            return replace(node, base=_changed(base, change))
        case Raised(base=base, exponent=exponent):
            return replace(node, base=_changed(base, change), exponent=_changed(exponent, change))
        case Call(arguments=arguments):
            return replace(node, arguments=tuple(_changed(one, change) for one in arguments))
    return node
