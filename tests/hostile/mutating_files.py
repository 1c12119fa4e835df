"""Changing one thing of a project's files: keys and values of YAML, headings, cells and rows of tables."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from random import Random

import yaml

_UNITS = {
    "in": "ft", "ft": "in", "mm": "in", "m": "ft", "cm": "mm", "psi": "kPa", "kPa": "psi", "MPa": "psi", "lb": "kg",
    "kg": "lb", "lbf": "kN", "kN": "lbf", "plf": "psf", "psf": "plf", "pcf": "psf", "mph": "m/s", "days": "h", "%": "",
    "deg": "in", "gal": "L", "oz": "lb", "N": "lbf",
}  # fmt: skip
_UNIT = re.compile(
    r"(?<=[0-9\s\[])(" + "|".join(sorted(map(re.escape, _UNITS), key=len, reverse=True)) + r")(?=\]|\s|$)"
)
_PLAIN = re.compile(r"[A-Za-z0-9 ./%+-]+")
_OTHERS: tuple[object, ...] = ("", "0", "-1", "1e9", "yes", "no", "2100-01-01", "x" * 300, "\u2300 8 in", [], {}, None)


@dataclass(frozen=True)
class Mutation:
    """What was done to which file, and what the file holds then."""

    said: str
    text: str


def mutations_of_yaml(name: str, text: str) -> list[Callable[[Random], Mutation]]:
    """One way to change each key, to be chosen from; what it does hangs on the random numbers."""
    places = len(list(_pairs(yaml.compose(text))))

    def at(index: int) -> Callable[[Random], Mutation]:
        def change(random: Random) -> Mutation:
            root = yaml.compose(text)
            holder, place = list(_pairs(root))[index]
            said = _change_pair(holder, place, random)
            return Mutation(f"{name}: {said}", _written(root) + "\n")

        return change

    return [at(index) for index in range(places)]


def _pairs(node: yaml.Node) -> Iterator[tuple[yaml.MappingNode, int]]:
    if isinstance(node, yaml.MappingNode):
        for place, (_, value) in enumerate(node.value):
            yield node, place
            yield from _pairs(value)
    elif isinstance(node, yaml.SequenceNode):
        for value in node.value:
            yield from _pairs(value)


def _change_pair(holder: yaml.MappingNode, place: int, random: Random) -> str:
    key, value = holder.value[place]
    at = f"{key.value} (line {key.start_mark.line + 1})"
    ways = ["drop", "double", "retype", "rename"]
    if isinstance(value, yaml.ScalarNode):
        ways += ["number"] if re.search("[0-9]", value.value) else []
        ways += ["unit", "unit"] if _UNIT.search(value.value) else []
    way = random.choice(ways)
    if way == "drop":
        del holder.value[place]
        return f"drop {at}"
    if way == "double":
        holder.value.insert(place, (key, value))
        return f"double {at}"
    if way == "rename":
        new = random.choice(
            [key.value + "s", key.value[:-1] or "x", key.value.swapcase(), random.choice(holder.value)[0].value]
        )
        holder.value[place] = (yaml.ScalarNode(key.tag, new), value)
        return f"rename {at} to {new}"
    if way == "retype":
        other = random.choice(_OTHERS)
        holder.value[place] = (key, _node(other))
        return f"retype {at} to {str(other)[:20]!r}"
    assert isinstance(value, yaml.ScalarNode)
    new = swapped_unit(value.value) if way == "unit" else other_number(value.value, random)
    holder.value[place] = (key, yaml.ScalarNode(value.tag, new))
    return f"{way} of {at}: {value.value} to {new}"


def swapped_unit(text: str) -> str:
    return _UNIT.sub(lambda found: _UNITS[found[1]], text, count=1)


def other_number(text: str, random: Random) -> str:
    factor = random.choice((10.0, 0.1, 2.0, 0.5, 0.0, -1.0))
    return re.sub(r"[0-9]+(?:\.[0-9]+)?", lambda found: f"{float(found[0]) * factor:g}", text, count=1)


def _node(value: object) -> yaml.Node:
    if isinstance(value, list):
        return yaml.SequenceNode("seq", [])
    if isinstance(value, dict):
        return yaml.MappingNode("map", [])
    return yaml.ScalarNode("str", "" if value is None else str(value))


def _written(node: yaml.Node) -> str:
    """As YAML on one line; a plain scalar stays plain, so that numbers and dates are read as before."""
    if isinstance(node, yaml.MappingNode):
        return "{" + ", ".join(f"{_written(key)}: {_written(value)}" for key, value in node.value) + "}"
    if isinstance(node, yaml.SequenceNode):
        return "[" + ", ".join(map(_written, node.value)) + "]"
    assert isinstance(node, yaml.ScalarNode)
    plain = node.style is None and _PLAIN.fullmatch(node.value) and node.value == node.value.strip()
    return node.value if plain and not node.value.startswith("-") else json.dumps(node.value, ensure_ascii=False)


def mutations_of_table(name: str, text: str) -> list[Callable[[Random], Mutation]]:
    """A way to change each cell, its row or its column, to be chosen from."""
    rows = list(csv.reader(io.StringIO(text)))

    def at(line: int, column: int) -> Callable[[Random], Mutation]:
        def change(random: Random) -> Mutation:
            changed = [list(row) for row in rows]
            said = _change_cell(changed, line, column, random)
            out = io.StringIO()
            csv.writer(out, lineterminator="\n").writerows(changed)
            return Mutation(f"{name}: {said}", out.getvalue())

        return change

    return [at(line, column) for line, row in enumerate(rows) for column in range(len(row))]


def _change_cell(rows: list[list[str]], line: int, column: int, random: Random) -> str:
    was = rows[line][column]
    at = f"{was!r} (row {line + 1}, column {column + 1})"
    way = random.choice(("drop row", "double row", "drop column", "double column", "cell", "cell"))
    if way == "drop row":
        del rows[line]
    elif way == "double row":
        rows.insert(line, list(rows[line]))
    elif way == "drop column":
        for row in rows:
            del row[column : column + 1]
    elif way == "double column":
        for row in rows:
            row[column:column] = row[column : column + 1]
    else:
        new = swapped_unit(was) if _UNIT.search(was) else other_number(was, random) if re.search("[0-9]", was) else ""
        rows[line][column] = new if new != was else random.choice(("", "x", "0", "air", "oven"))
        return f"cell {at} to {rows[line][column]!r}"
    return f"{way} of {at}"
