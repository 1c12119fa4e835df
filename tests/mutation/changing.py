"""The changes: one place of a module's tree at a time, so small that the rest still works."""

from __future__ import annotations

import ast
import copy
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

_COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_TURNED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.Gt, ast.LtE: ast.GtE, ast.Gt: ast.Lt, ast.GtE: ast.LtE,
}  # fmt: skip
_CALCULATED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult, ast.FloorDiv: ast.Div,
    ast.Mod: ast.Mult,
}  # fmt: skip
_CALLED = {"min": "max", "max": "min", "any": "all", "all": "any", "ceil": "floor", "floor": "ceil"}


@dataclass(frozen=True)
class Mutant:
    """A module with one change. `before` and `after` are the part that changed, as code; `function` is the outermost
    function or method around it, empty where there is none. `place` counts changes that read alike, from 1. `_source`
    is the module's own tree; the changed one is made only when asked for, as most changes are only listed."""

    line: int
    before: str
    after: str
    _source: ast.Module
    _node: ast.AST
    _changed: ast.AST
    function: str = ""
    function_lines: range | None = None
    place: int = 1

    @property
    def tree(self) -> ast.Module:
        """The whole module with the change, a tree of its own."""
        copied = {id(self._node): copy.deepcopy(self._changed)}
        return ast.fix_missing_locations(copy.deepcopy(self._source, copied))

    @property
    def says(self) -> str:
        again = f" (place {self.place})" if self.place > 1 else ""
        return f"{self.function or 'module'}: {self.before} -> {self.after}{again}"


def mutants(source: str) -> Iterator[Mutant]:
    """Every change of a module, in the order of its lines."""
    tree = ast.parse(source)
    passed_over = set(_passed_over(tree))
    functions = list(_functions(tree.body))
    places = [node for node in ast.walk(tree) if hasattr(node, "lineno") and id(node) not in passed_over]
    alike: Counter[str] = Counter()
    for node in sorted(places, key=lambda one: (one.lineno, one.col_offset)):  # type: ignore[attr-defined]
        for change in _changes(node):
            found = _with(tree, node, change, functions)
            alike[found.says] += 1
            yield replace(found, place=alike[found.says])


def _functions(body: list[ast.stmt], within: str = "") -> Iterator[tuple[str, range]]:
    """The outermost functions and methods with their lines, those of decorators included."""
    for part in body:
        if isinstance(part, ast.FunctionDef):
            first = min([part.lineno, *(one.lineno for one in part.decorator_list)])
            yield f"{within}{part.name}", range(first, (part.end_lineno or part.lineno) + 1)
        elif isinstance(part, ast.ClassDef):
            yield from _functions(part.body, f"{part.name}.")


def _passed_over(tree: ast.Module) -> Iterator[int]:
    """What no test can notice: annotations, texts that document, and the names a module shows."""
    for node in ast.walk(tree):
        parts: list[ast.AST | None] = []
        if isinstance(node, ast.arg | ast.AnnAssign):
            parts.append(node.annotation)
        if isinstance(node, ast.FunctionDef):
            parts.append(node.returns)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            parts.append(node.value)
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            parts.append(node)
        for part in parts:
            if part is not None:
                yield from (id(below) for below in ast.walk(part))


Change = Callable[[ast.AST], ast.AST]


def _changes(node: ast.AST) -> Iterator[Change]:
    match node:
        case ast.Compare(ops=ops):
            for index, op in enumerate(ops):
                for table in (_COMPARED, _TURNED):
                    if type(op) in table:
                        yield _compared(index, table[type(op)])
        case ast.BoolOp(op=op):
            yield _set("op", ast.Or() if isinstance(op, ast.And) else ast.And())
        case ast.UnaryOp(op=ast.Not() | ast.USub()):
            yield lambda one: one.operand  # type: ignore[attr-defined]
        case ast.BinOp(op=op) if type(op) in _CALCULATED:
            yield _set("op", _CALCULATED[type(op)]())
        case ast.Constant(value=bool() as value):
            yield _set("value", not value)
        case ast.Constant(value=int() as value):
            yield _set("value", value + 1)
        case ast.Constant(value=float() as value):
            yield _set("value", value * 1.1 if value else 1.0)
        case ast.Call(func=ast.Name(id=name)) if name in _CALLED:
            yield _called(_CALLED[name])
        case ast.Call(func=ast.Attribute(attr=name)) if name in _CALLED:
            yield _called(_CALLED[name])
        case ast.If() | ast.IfExp():
            yield lambda one: _set("test", ast.UnaryOp(ast.Not(), one.test))(one)  # type: ignore[attr-defined]


def _set(field: str, value: object) -> Change:
    def change(node: ast.AST) -> ast.AST:
        setattr(node, field, value)
        return node

    return change


def _compared(index: int, op: type[ast.cmpop]) -> Change:
    def change(node: ast.AST) -> ast.AST:
        assert isinstance(node, ast.Compare)
        node.ops[index] = op()
        return node

    return change


def _called(name: str) -> Change:
    def change(node: ast.AST) -> ast.AST:
        assert isinstance(node, ast.Call)
        if isinstance(node.func, ast.Name):
            node.func.id = name
        elif isinstance(node.func, ast.Attribute):
            node.func.attr = name
        return node

    return change


def _with(tree: ast.Module, node: ast.AST, change: Change, functions: list[tuple[str, range]]) -> Mutant:
    changed = change(copy.deepcopy(node))
    shown = node.test if isinstance(node, ast.If) else node
    after = changed.test if isinstance(changed, ast.If) else changed
    line: int = node.lineno  # type: ignore[attr-defined]
    name, lines = next((one for one in functions if line in one[1]), ("", None))
    return Mutant(
        line,
        before=ast.unparse(shown),
        after=ast.unparse(after),
        _source=tree,
        _node=node,
        _changed=changed,
        function=name,
        function_lines=lines,
    )
