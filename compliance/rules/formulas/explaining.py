"""A formula worked out for people, as the steps of a hand calculation in either system of units."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from compliance.rules.formulas.comparisons import kind_of_sides, number_types, value_left
from compliance.rules.formulas.dimensions import infer
from compliance.rules.formulas.evaluating import compiled
from compliance.rules.formulas.nodes import (
    NUMERIC,
    Compare,
    FormulaUndefined,
    Joined,
    Member,
    Name,
    Node,
    Not,
    Values,
    walk,
)
from compliance.rules.formulas.numbers_put_in import FormulaStep, StatementStep
from compliance.rules.formulas.printing import RELATIONS, written
from compliance.rules.formulas.types import NumberType, kind_for
from compliance.steps import Given, Scalar, Step

MISSING = "missing"
HOLDS, FAILS = "holds", "does not hold"


def explained(root: Node, values: Values, labels: Mapping[str, str], kinds: Mapping[str, str]) -> tuple[Step, ...]:
    """The steps of a checked formula. `kinds` must name the kind of every name that is a number.

    A label that two names share is replaced by the names themselves. Missing and undefined values raise nothing:
    the steps say so.
    """
    return tuple(dict.fromkeys(_Explaining(root, values, labels, kinds).steps()))


class _Explaining:
    def __init__(self, root: Node, values: Values, labels: Mapping[str, str], kinds: Mapping[str, str]) -> None:
        self._root, self._values, self._kinds = root, values, kinds
        self._types = number_types(kinds)
        self._labels = _labels(root, labels)

    def steps(self) -> Iterator[Step]:
        if self._is_number(self._root):
            found = infer(self._root, self._types)
            kind = kind_for(found) if isinstance(found, NumberType) else ""
            yield self._calculation("value", self._root, kind)
            return
        yield from self._statement(self._root)
        if isinstance(self._root, Joined | Not):
            yield self._verdict("together", self._root)

    def _statement(self, node: Node) -> Iterator[Step]:
        match node:
            case Joined(parts=parts):
                for part in parts:
                    yield from self._statement(part)
            case Not(of=of):
                yield from self._statement(of)
            case Compare() if self._is_number(node.left) and self._is_number(node.right):
                yield from self._comparison(value_left(node))
            case Compare() | Member():
                yield self._verdict("check", node)
            case Name():
                yield Step(self._label(node.name), "", (), Given("", self._scalar(node)))

    def _comparison(self, node: Compare) -> Iterator[Step]:
        kind = kind_of_sides(node, self._types)
        for says, side in (("value", node.left), ("limit", node.right)):
            if not isinstance(side, Name) and any(isinstance(part, Name) for part in walk(side)):
                yield self._calculation(says, side, kind)
        sides = (self._side(node.left, kind), self._side(node.right, kind))
        yield StatementStep(
            "check",
            written(node, self._label),
            sides,
            self._holds(node),
            relation=RELATIONS[node.relation],
            sides=sides,
        )

    def _side(self, node: Node, kind: str) -> Given:
        return Given(written(node, self._label), self._scalar(node), kind)

    def _calculation(self, says: str, node: Node, kind: str) -> Step:
        named = self._named(node)
        given = tuple(each for _, several in named for each in several)
        result = Given("", self._scalar(node), kind)
        return FormulaStep(says, written(node, self._label), given, result, node=node, named=named)

    def _verdict(self, says: str, node: Node) -> Step:
        """A statement as a whole; numbers are put in where it is one comparison of words or one list."""
        named = () if isinstance(node, Joined | Not) else self._named(node)
        given = tuple(each for _, several in named for each in several)
        return StatementStep(says, written(node, self._label), given, self._holds(node), node=node, named=named)

    def _holds(self, node: Node) -> Given:
        found = self._scalar(node)
        return Given("", found if isinstance(found, str) else HOLDS if found else FAILS)

    def _scalar(self, node: Node) -> Scalar:
        try:
            found = compiled(node)(self._values)
        except FormulaUndefined as undefined:
            return f"without a value: {undefined.reason}"
        if found is None:
            return MISSING
        return found if isinstance(found, float | int | str) else ", ".join(sorted(map(str, found)))

    def _named(self, node: Node) -> tuple[tuple[str, tuple[Given, ...]], ...]:
        names = dict.fromkeys(part.name for part in walk(node) if isinstance(part, Name))
        return tuple((name, self._given(name)) for name in names)

    def _given(self, name: str) -> tuple[Given, ...]:
        found = self._values.get(name)
        several = sorted(found, key=str) if isinstance(found, tuple | frozenset) else [found]
        label, kind = self._label(name), self._kinds.get(name, "")
        return tuple(Given(label, MISSING if each is None else each, kind) for each in several)

    def _is_number(self, node: Node) -> bool:
        return isinstance(node, NUMERIC) or (isinstance(node, Name) and node.name in self._types)

    def _label(self, name: str) -> str:
        return self._labels[name]


def _labels(root: Node, labels: Mapping[str, str]) -> dict[str, str]:
    """A label for each name, no two alike."""
    names = sorted({part.name for part in walk(root) if isinstance(part, Name)})
    words = {name: name.replace(".", " ").replace("_", " ") for name in names}
    chosen = {name: labels.get(name) or words[name] for name in names}
    for fallback in (words, {name: name for name in names}):
        uses = Counter(chosen.values())
        chosen = {name: label if uses[label] == 1 else fallback[name] for name, label in chosen.items()}
    return chosen
