"""A call of one of our own functions or classes passes at most four values by position; more have their names."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache

import pytest

from tests.package_sources import PACKAGE, tree_of

MOST = 4
ROWS = {"FactSpec"}
"""Made in tables of one line each, whose columns are named above them."""

Def = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef


def takes_any_number(node: Def) -> bool:
    """Whether the values are a list, or can be given by position alone."""
    makers = [one for one in node.body if isinstance(one, ast.FunctionDef) and one.name in ("__init__", "__new__")]
    found = makers if isinstance(node, ast.ClassDef) else [node]
    return any(one.args.vararg or one.args.posonlyargs for one in found)


def definitions(tree: ast.Module) -> dict[str, Def]:
    return {one.name: one for one in tree.body if isinstance(one, Def)}


@cache
def by_name() -> dict[str, list[Def]]:
    found: dict[str, list[Def]] = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        for name, node in definitions(tree_of(path)).items():
            found.setdefault(name, []).append(node)
    return found


def crowded(tree: ast.Module) -> Iterator[str]:
    """Calls of what the module defines or imports from the package, and of methods of its own classes, with more than
    four values by position."""
    own: dict[str, list[Def]] = {name: [node] for name, node in definitions(tree).items()}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("compliance"):
            own |= {one.asname or one.name: by_name().get(one.name, []) for one in node.names}
    for outer in ast.walk(tree):
        methods: dict[str, list[Def]] = {}
        if isinstance(outer, ast.ClassDef):
            methods = {one.name: [one] for one in outer.body if isinstance(one, ast.FunctionDef)}
        for node in ast.walk(outer) if methods else (outer,):
            match node:
                case ast.Call(func=ast.Name(id=name), args=args):
                    known = own.get(name, [])
                case ast.Call(func=ast.Attribute(value=ast.Name(id="self" | "cls"), attr=name), args=args):
                    known = methods.get(name, [])
                case _:
                    continue
            plain = len(args) > MOST and not any(isinstance(one, ast.Starred) for one in args)
            if known and plain and name not in ROWS and not any(map(takes_any_number, known)):
                yield f"line {node.lineno}: {name} with {len(args)} values"


def test_more_than_four_values_have_their_names() -> None:
    paths = sorted(PACKAGE.rglob("*.py"))
    found = {path.relative_to(PACKAGE).as_posix(): sorted(set(crowded(tree_of(path)))) for path in paths}
    assert len(found) > 400
    assert {name: calls for name, calls in found.items() if calls} == {}


@pytest.mark.parametrize(
    ("text", "many"),
    [
        ("def f(a, b, c, d, e): ...\nf(1, 2, 3, 4, 5)", True),
        ("def f(a, b, c, d, e): ...\nf(1, b=2, c=3, d=4, e=5)", False),
        ("def f(*a): ...\nf(1, 2, 3, 4, 5)", False),
        ("class C:\n    def f(self, a, b, c, d, e): ...\n    def g(self): self.f(1, 2, 3, 4, 5)", True),
        ("max(1, 2, 3, 4, 5)", False),
    ],
)
def test_what_is_seen(text: str, many: bool) -> None:
    assert bool(list(crowded(ast.parse(text)))) is many
