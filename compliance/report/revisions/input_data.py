"""What the user stated, value by value under its path, to hold one revision beside another."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import Any

from pydantic import BaseModel

from compliance.checked import Checked
from compliance.model.people import Answer
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.units import Measure

_LEFT_OUT = frozenset({"revision", "date"})
"""Of the head: they stand in the heading of every comparison."""
_OF_A_FIELD = 3
"""Parts of the path of a field of a wall: section, mark, name."""


def inputs_data(checked: Checked) -> dict[str, dict[str, Any]]:
    """Each stated value with its text, of measures also its number in SI; what a wall takes from its type stands at the
    type. Rows of the laboratory are counted for each set, with a short digest."""
    stated = _values(checked.project, ())
    kept = {".".join(path): value for path, value in stated if not _is_of_the_type(path, checked.project)}
    for mark, rows in checked.specimens.items():
        kept[f"lab.{mark}"] = {"text": f"{len(rows)} rows, digest {_digest(rows)}"}
    return kept


def _values(node: object, path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], dict[str, Any]]]:
    if isinstance(node, Answer):
        said = {name: getattr(node, name) for name in type(node).model_fields if name in node.model_fields_set}
        yield path, {"text": "; ".join(f"{name} {_text(value)}" for name, value in said.items())}
    elif isinstance(node, BaseModel):
        for name, field in type(node).model_fields.items():
            if name in node.model_fields_set and not (path == ("project",) and name in _LEFT_OUT):
                yield from _values(getattr(node, name), (*path, field.alias or name))
    elif isinstance(node, Mapping):
        for name, value in node.items():
            yield from _values(value, (*path, str(name)))
    elif isinstance(node, list | tuple) and any(isinstance(one, BaseModel) for one in node):
        for index, value in enumerate(node, 1):
            yield from _values(value, (*path, str(index)))
    elif isinstance(node, Measure):
        yield path, {"text": node.text, "number": node.si}
    elif node is not None:
        yield path, {"text": _text(node)}


def _text(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, list | tuple):
        return ", ".join(map(_text, value))
    return f"{value:g}" if isinstance(value, float) else str(value)


def _is_of_the_type(path: tuple[str, ...], project: Project) -> bool:
    """Whether a value of a wall is the one its type has."""
    if len(path) < _OF_A_FIELD or path[0] != "walls":
        return False
    mark, name = path[1:_OF_A_FIELD]
    wall = project.walls[mark]
    kind = project.wall_types.get(wall.type) if wall.type else None
    return kind is not None and name in kind.model_fields_set and getattr(kind, name) == getattr(wall, name)


def _digest(rows: Iterable[Specimen] | Sequence[Specimen]) -> str:
    return hashlib.sha256("\n".join(map(repr, rows)).encode()).hexdigest()[:8]
