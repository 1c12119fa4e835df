"""Nothing in the program is there for its tests alone: every name it defines is used somewhere else in it."""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from tests.package_sources import tree_of

ROOT = Path(__file__).parents[2]
CALLED_BY_LIBRARIES = {
    "afterFlowable", "afterPage", "beforeBuild", "beforeDocument", "beforePage", "emit", "format_commands",
    "isSatisfied", "_escape",
}  # fmt: skip
"""Methods that reportlab, typer and the logging of the standard library look for by their names."""
REGISTRY = re.compile(r"^EQUATIONS\b[^=]*= \([^)]*\)", re.MULTILINE)
"""An equation that stands only in the list of its module is not used."""


def _targets(node: ast.stmt) -> Iterator[str]:
    if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
        yield node.name
    elif isinstance(node, ast.Assign):
        yield from (name.id for target in node.targets for name in ast.walk(target) if isinstance(name, ast.Name))
    elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
        yield node.target.id


def _is_validator(node: ast.FunctionDef) -> bool:
    return any("validator" in ast.unparse(one) or "serializer" in ast.unparse(one) for one in node.decorator_list)


def _defined(tree: ast.Module) -> Iterator[str]:
    for node in tree.body:
        yield from _targets(node)
    for kind in (node for node in ast.walk(tree) if isinstance(node, ast.ClassDef)):
        yield from (node.name for node in kind.body if isinstance(node, ast.FunctionDef) and not _is_validator(node))


def test_every_name_is_used_outside_its_definition() -> None:
    defined: Counter[str] = Counter()
    seen: Counter[str] = Counter()
    places: dict[str, str] = {}
    for path in sorted((ROOT / "compliance").rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        seen.update(re.findall(r"\w+", REGISTRY.sub("", text)))
        for name in _defined(tree_of(path)):
            defined[name] += 1
            places[name] = path.relative_to(ROOT).as_posix()
    for path in (ROOT / "rulesets").rglob("*.yaml"):  # facts and functions that only rules name
        seen.update(set(re.findall(r"\w+", path.read_text(encoding="utf-8"))))
    known = CALLED_BY_LIBRARIES | {"EQUATIONS"} | {name for name in defined if re.fullmatch(r"__\w+__", name)}
    dead = {name: places[name] for name, times in defined.items() if seen[name] <= times and name not in known}
    assert dead == {}
