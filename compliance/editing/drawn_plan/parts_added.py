"""Walls and their parts put in and taken away, as edits of values."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import count
from typing import Any

from compliance.editing.file_edits import EditRefusedError, ValueEdit
from compliance.facts.common.fact import FieldPath
from compliance.model.project import Project
from compliance.remedies.edited_project import value_at


def free_mark(stem: str, taken: Iterable[str]) -> str:
    """The first of W1, W2 ... that is not taken."""
    known = set(taken)
    return next(mark for number in count(1) if (mark := f"{stem}{number}") not in known)


def part_added(project: Project, path: FieldPath, value: Mapping[str, Any]) -> ValueEdit:
    """A part under a mark that is new. Raises EditRefusedError."""
    if value_at(project, path) is not None:
        raise EditRefusedError(f"{path[-1]} is there already; write another mark")
    return ValueEdit(path, dict(value))


def part_removed(project: Project, path: FieldPath) -> tuple[ValueEdit, ...]:
    """A part taken away, of a wall all that stands against it and bears on it too. Raises EditRefusedError."""
    if value_at(project, path) is None:
        raise EditRefusedError(f"there is no {'.'.join(map(str, path))} to take away")
    if path[0] == "walls" and len(path) == 2:
        return _wall_removed(project, str(path[1]))
    return (_without(project, path),)


def _without(project: Project, path: FieldPath) -> ValueEdit:
    """With its heading, where it is the only one below it."""
    holder = value_at(project, path[:-1])
    return ValueEdit(path[:-1] if isinstance(holder, dict) and len(holder) == 1 else path, None)


def _wall_removed(project: Project, mark: str) -> tuple[ValueEdit, ...]:
    if len(project.walls) == 1:
        raise EditRefusedError(f"{mark} is the only wall; draw another one first")
    beside = [name for name, one in project.buttresses.items() if one.wall == mark]
    edits = [ValueEdit(("buttresses", name), None) for name in beside]
    if beside and len(beside) == len(project.buttresses):
        edits = [ValueEdit(("buttresses",), None)]
    for name, roof in project.roofs.items():
        edits += _bearings(("roofs", name, "bears_on"), [one.wall for one in roof.bears_on], mark)
        for beam, own in roof.beams.items():
            edits += _bearings(("roofs", name, "beams", beam, "bears_on"), [one.wall for one in own.bears_on], mark)
    return (*edits, ValueEdit(("walls", mark), None))


def _bearings(path: FieldPath, walls: Sequence[str | None], mark: str) -> list[ValueEdit]:
    """Those on the wall, the last one first, so that the numbers of the others stay."""
    found = [index for index, one in enumerate(walls) if one == mark]
    if found and len(found) == len(walls):
        return [ValueEdit(path, None)]
    return [ValueEdit((*path, index), None) for index in reversed(found)]
