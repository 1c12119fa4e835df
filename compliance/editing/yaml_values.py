"""Values as YAML in one line or a few, and trees of values changed at a path."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from compliance.problems import ProblemsFound
from compliance.reading.yaml.strict_yaml import parse_yaml

_MOST_IN_A_LINE = 100


def flow_text(value: Any) -> str:
    """A value in one line that may stand in braces: plain where that reads the same, quoted elsewhere."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{flow_text(str(key))}: {flow_text(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow_text, value)) + "]"
    if isinstance(value, str):
        return value if _is_plain(value) else json.dumps(value, ensure_ascii=False)
    return json.dumps(value)


def _is_plain(text: str) -> bool:
    if not text or text != text.strip() or text[0] in "'\"|>#&*!%@`-?:," or any(mark in text for mark in ":,[]{}#\r\n"):
        return False
    try:
        return alike(plain_copy(parse_yaml(f"a: [{text}]\n", "value")), {"a": [text]})
    except ProblemsFound:
        return False


def block_lines(value: Any, indent: int, is_spread: bool = False) -> list[str]:
    """The entries of a mapping or a list one below the other. `is_spread`: entries that are mappings are spread too."""
    if isinstance(value, dict):
        return [line for key, one in value.items() for line in entry_lines(str(key), one, indent, is_spread)]
    return [f"{' ' * indent}- {flow_text(one)}" for one in value]


def entry_lines(key: str, value: Any, indent: int, is_spread: bool = False) -> list[str]:
    """An entry of a mapping in a block: in one line, or below its key where it is long, a list of mappings, or, if
    `is_spread`, a mapping of several."""
    head = f"{' ' * indent}{flow_text(key)}:"
    line = f"{head} {flow_text(value)}"
    has_records = isinstance(value, list) and any(isinstance(one, dict) for one in value)
    is_long = len(line) > _MOST_IN_A_LINE or has_records or (is_spread and isinstance(value, dict) and len(value) > 1)
    if not is_long or not isinstance(value, dict | list) or not value:
        return [line]
    return [head, *block_lines(value, indent + 2)]


def nested(path: Sequence[str | int], value: Any) -> Any:
    """`value` in the mappings and lists that a path leads through. Raises LookupError for an entry beyond a first."""
    for part in reversed(path):
        if isinstance(part, int) and part:
            raise LookupError("no such entry")
        value = [value] if isinstance(part, int) else {part: value}
    return value


def plain_copy(tree: Any) -> Any:
    """A tree that was read as plain mappings and lists."""
    if isinstance(tree, dict):
        return {key: plain_copy(one) for key, one in tree.items()}
    return [plain_copy(one) for one in tree] if isinstance(tree, list) else tree


def applied(tree: Any, path: Sequence[str | int], value: Any) -> Any:
    """A copy of the tree with `value` at `path`, None taking the entry away. Raises LookupError or TypeError where the
    path leads through what is no mapping and no list, or to what is not there to take away."""
    part, rest = path[0], path[1:]
    if tree is None:
        tree = [] if isinstance(part, int) else {}
    if isinstance(tree, list):
        if not isinstance(part, int) or not 0 <= part <= len(tree):
            raise LookupError("no such entry")
        here = tree[part] if part < len(tree) else None
        if value is None and not rest:
            return [one for at, one in enumerate(tree) if at != part] if part < len(tree) else _none_there()
        return [*tree[:part], applied(here, rest, value) if rest else value, *tree[part + 1 :]]
    if not isinstance(tree, dict) or not isinstance(part, str):
        raise TypeError("a value stands where a mapping is wanted")
    if value is None and part not in tree:
        _none_there()
    if value is None and not rest:
        return {key: one for key, one in tree.items() if key != part}
    return {**tree, part: applied(tree.get(part), rest, value) if rest else value}


def _none_there() -> Any:
    raise LookupError("there is nothing to take away")


def alike(one: Any, other: Any) -> bool:
    """Whether two trees hold the same, a number and a yes or no told apart."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(alike(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(alike, one, other))
    return type(one) is type(other) and one == other
