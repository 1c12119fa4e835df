"""Rules with one thing about them changed: a relation, a sign, a number, a limit, a word, a cell or an axis entry."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields, replace

from compliance.facts.catalogue import FACTS
from compliance.rules.formulas.formula import Formula
from compliance.rules.formulas.nodes import (
    Arithmetic,
    Call,
    Compare,
    Joined,
    Member,
    Negative,
    Node,
    Not,
    Number,
    Text,
    YesNo,
    children,
    walk,
)
from compliance.rules.rule_set import Limit, Plain, Rule
from compliance.rules.tables import Axis, Table

SHARE = 0.01
# What each relation becomes: the same without or with the limit itself, and its opposite.
_CHANGED = {"<=": ("<", ">"), "<": ("<=", ">="), ">=": (">", "<"), ">": (">=", "<="), "==": ("!=",), "!=": ("==",)}
_SIGNS = {"+": "-", "-": "+", "*": "/", "/": "*"}
_FUNCTIONS = {"min": "max", "max": "min"}

Change = Callable[[Rule], Rule]


def changes(rule: Rule) -> Iterator[tuple[str, Change]]:
    """Each change with what it does. `rule` has its open limits filled in, as a case does; a change is made to any
    filling of the same rule."""
    yield from _relations(rule)
    used = (rule.when.names if rule.when else frozenset()) | (rule.check.names if rule.check else frozenset())
    for name, limit in rule.limits.items():
        for says, change in _of_limit(limit) if name in used else ():
            yield f"{name}: {says}", _to_limit(name, change)
    for name, table in rule.looked_up.items():
        for says, other in table_changes(table):
            yield f"{name}: {says}", _to_table(name, other)


def _relations(rule: Rule) -> Iterator[tuple[str, Change]]:
    for part in ("when", "check"):
        formula: Formula | None = getattr(rule, part)
        for node in walk(formula.root) if formula else ():
            for says, other in _other_nodes(node):
                assert formula is not None
                changed = Formula(formula.text, formula.names, _with(formula.root, node, other))
                yield f"{part}: {formula.text[node.start : node.end]}: {says}", _to_part(part, changed)


def _to_part(part: str, formula: Formula) -> Change:
    return lambda rule: replace(rule, **{part: formula})  # type: ignore[arg-type]


def _other_nodes(node: Node) -> Iterator[tuple[str, Node]]:
    if isinstance(node, Compare):
        for relation in _CHANGED[node.relation]:
            yield relation, replace(node, relation=relation)
    elif isinstance(node, Member):
        yield "in" if node.negated else "not in", replace(node, negated=not node.negated)
    elif isinstance(node, Joined):
        other = "or" if node.word == "and" else "and"
        yield other, replace(node, word=other)
    else:
        yield from _other_parts(node)


def _other_parts(node: Node) -> Iterator[tuple[str, Node]]:
    """Of what is calculated and written out in a formula."""
    if isinstance(node, Arithmetic):
        yield _SIGNS[node.sign], replace(node, sign=_SIGNS[node.sign])
    elif isinstance(node, Call) and node.function in _FUNCTIONS:
        yield _FUNCTIONS[node.function], replace(node, function=_FUNCTIONS[node.function])
    elif isinstance(node, Not | Negative):
        yield "left out", node.of
    elif isinstance(node, Number):
        yield "more", replace(node, value=node.value * (1 + SHARE) if node.value else 1.0)
    elif isinstance(node, Text):
        yield "another word", replace(node, value=f"not {node.value}")
    elif isinstance(node, YesNo):
        yield "the other answer", replace(node, value=not node.value)


def _with(root: Node, old: Node, new: Node) -> Node:
    """The tree with one node exchanged for another."""
    if root is old:
        return new
    if not children(root):
        return root
    changed: dict[str, object] = {}
    for each in fields(root):
        value = getattr(root, each.name)
        if isinstance(value, tuple):
            changed[each.name] = tuple(_with(one, old, new) for one in value)
        elif isinstance(value, Node):
            changed[each.name] = _with(value, old, new)
    return replace(root, **changed)  # type: ignore[arg-type]


def _of_limit(limit: Limit) -> Iterator[tuple[str, Callable[[Plain], Plain]]]:
    """Changes of its value. Words are taken out one by one; a yes or no turns over; numbers move."""
    if isinstance(limit.value, frozenset):
        for word in sorted(limit.value):
            yield f"without {word}", lambda value, word=word: value - {word}  # type: ignore[misc]
    elif isinstance(limit.value, bool):
        yield "the other answer", lambda value: not value
    elif isinstance(limit.value, float):
        for says, sign in (("higher", 1), ("lower", -1)):
            yield says, lambda value, sign=sign: moved(value, limit.kind, sign)  # type: ignore[misc]
    else:
        yield "another word", lambda value: f"not {value}"


def _to_limit(name: str, change: Callable[[Plain], Plain]) -> Change:
    def changed(rule: Rule) -> Rule:
        limit = rule.limits[name]
        value = limit.value if limit.value is None else change(limit.value)
        return replace(rule, limits={**rule.limits, name: replace(limit, value=value)})

    return changed


def moved(value: float, kind: str, sign: int) -> float:
    """A number moved up or down: a count by one, for between two counts there is nothing, others by their share."""
    return value + sign if kind == "count" or value == 0 else value * (1 + sign * SHARE)


def table_changes(table: Table) -> Iterator[tuple[str, Callable[[Table], Table]]]:
    places = [(row, column) for row, line in enumerate(table.cells) for column, _ in enumerate(line)]
    for says, sign in (("higher", 1), ("lower", -1)):
        if len({cell for line in table.cells for cell in line}) == 1:  # One value fills what is open.
            yield f"all cells {says}", lambda one, sign=sign: _cells_moved(one, places, sign)  # type: ignore[misc]
            continue
        for row, column in places:
            at = f"row {row + 1} column {column + 1} {says}"
            yield at, lambda one, at=(row, column), sign=sign: _cells_moved(one, [at], sign)  # type: ignore[misc]
    for says, rows in _axis_moved(table.rows):
        yield f"row {says}", lambda one, rows=rows: replace(one, rows=rows)  # type: ignore[misc]
    for says, columns in _axis_moved(table.columns) if table.columns else ():
        yield f"column {says}", lambda one, columns=columns: replace(one, columns=columns)  # type: ignore[misc]


def _cells_moved(table: Table, places: list[tuple[int, int]], sign: int) -> Table:
    cells = [list(line) for line in table.cells]
    for row, column in places:
        cell = cells[row][column]
        cells[row][column] = None if cell is None else moved(cell, table.kind, sign)
    return replace(table, cells=tuple(tuple(line) for line in cells))


def _to_table(name: str, change: Callable[[Table], Table]) -> Change:
    return lambda rule: replace(rule, tables={**rule.tables, name: change(rule.tables[name])})


def _axis_moved(axis: Axis) -> Iterator[tuple[str, Axis]]:
    for place, entry in enumerate(axis.entries if axis.numeric else ()):
        assert isinstance(entry, float)
        for says, sign in (("higher", 1), ("lower", -1)):
            other = moved(entry, FACTS[axis.fact].kind, sign)
            entries = (*axis.entries[:place], other, *axis.entries[place + 1 :])
            yield f"entry {place + 1} {says}", replace(axis, entries=entries)
