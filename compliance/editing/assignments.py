"""Changes written as `W3.thickness=20 in`, laid over a project as it was read, before it is looked at."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from compliance.model.project import Project
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.project_folder import Edit
from compliance.reading.yaml.placed import PlacedDict, PlacedList, Spot
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import record
from compliance.refused import RefusedError, nearest

_FORM = 'write for example W3.thickness="20 in"'


@record
class Assignment:
    """One change: `path` as it was written, parted at the dots; `value` None takes the field away."""

    text: str
    path: tuple[str, ...]
    value: Any


def read_assignments(texts: Sequence[str]) -> list[Assignment]:
    """Raises ProblemsFound: `what-if-form`, `what-if-value`."""
    found, problems = [], []
    for text in texts:
        try:
            found.append(_read(text))
        except RefusedError as refused:
            problems.append(refused.at(Place(text)))
    if problems:
        raise ProblemsFound(problems)
    return found


def _read(text: str) -> Assignment:
    name, equals, value = text.partition("=")
    path = tuple(part.strip() for part in name.split("."))
    if not equals or not all(path) or len(path) < 2:
        raise RefusedError("what-if-form", f"{text!r} does not say which field gets which value", _FORM)
    if not value.strip():
        return Assignment(text, path, None)
    try:
        return Assignment(text, path, parse_yaml(f"value: {value.strip()}\n", text)["value"])
    except ProblemsFound as found:
        first = found.problems[0]
        raise RefusedError("what-if-value", f"{value.strip()!r} cannot be read: {first.wrong}", first.instead) from None


def edit_of(assignments: Sequence[Assignment]) -> Edit:
    """What `read_project` calls to make the changes. Raises ProblemsFound: `what-if-mark`, `what-if-path`.

    A changed value is placed at line 0, column its number from 1: `at_assignment` puts the assignment in its stead.
    """

    def edit(tree: PlacedDict) -> None:
        problems = []
        for number, one in enumerate(assignments, 1):
            try:
                _assign(tree, one, (0, number))
            except RefusedError as refused:
                problems.append(refused.at(Place(tree.file, 0, number)))
        if problems:
            raise ProblemsFound(problems)

    return edit


def at_assignment(problem: Problem, assignments: Sequence[Assignment]) -> Problem:
    """A problem of a changed value as one of the assignment."""
    place = problem.place
    if place.line or not 0 < place.column <= len(assignments):
        return problem
    at = Place(assignments[place.column - 1].text)
    return Problem(at, code=problem.code, wrong=problem.wrong, instead=problem.instead, warning=problem.warning)


def _assign(tree: PlacedDict, one: Assignment, spot: Spot) -> None:
    *above, name = _full_path(tree, one.path)
    holder: PlacedDict | PlacedList = tree
    for part in above:
        holder = _below(holder, part, one.text, spot)
    if isinstance(holder, PlacedList):
        index = _index(holder, name, one.text)
        holder[index] = _placed(one.value, spot)
        holder.item_places[index] = spot
    elif one.value is None:
        holder.pop(name, None)
        holder.key_places.pop(name, None)
        holder.value_places.pop(name, None)
    else:
        holder[name] = _placed(one.value, spot)
        holder.key_places[name] = holder.value_places[name] = spot


def _full_path(tree: PlacedDict, path: tuple[str, ...]) -> list[str]:
    """The path from the top: a mark may stand alone, and so may the mark of an opening after that of its wall."""
    if path[0] not in Project.model_fields:
        path = (_section_of(tree, path[0]), *path)
    openings = _at(tree, (*path[:2], "openings"))
    if path[0] == "walls" and len(path) > 3 and isinstance(openings, PlacedDict) and path[2] in openings:
        path = (*path[:2], "openings", *path[2:])
    return list(path)


def _section_of(tree: PlacedDict, mark: str) -> str:
    sections = [name for name, held in tree.items() if isinstance(held, PlacedDict) and mark in held]
    sections = [name for name in sections if name not in ("project", "people", "jurisdiction", "site", "lab")]
    if len(sections) == 1:
        return sections[0]
    if sections:
        both = " and ".join(f"{name}.{mark}" for name in sections)
        raise RefusedError("what-if-mark", f"{mark!r} stands under {' and '.join(sections)}", f"write {both}")
    marks = [name for held in tree.values() if isinstance(held, PlacedDict) for name in held]
    near = nearest(mark, [*marks, *Project.model_fields])
    raise RefusedError("what-if-mark", f"nothing is called {mark!r}", f"did you mean {near}?" if near else _FORM)


def _at(tree: Any, path: tuple[str, ...]) -> Any:
    for part in path:
        tree = tree.get(part) if isinstance(tree, PlacedDict) else None
    return tree


def _below(holder: PlacedDict | PlacedList, part: str, text: str, spot: Spot) -> PlacedDict | PlacedList:
    """What `part` leads to; a mapping that is not there yet is begun."""
    if isinstance(holder, PlacedList):
        inner = holder[_index(holder, part, text)]
    else:
        if holder.get(part) is None:
            holder[part] = PlacedDict(holder.file, spot)
            holder.key_places[part] = holder.value_places[part] = spot
        inner = holder[part]
    if not isinstance(inner, PlacedDict | PlacedList):
        raise RefusedError("what-if-path", f"{part} holds a value, and nothing below it", _FORM)
    return inner


def _index(holder: PlacedList, part: str, text: str) -> int:
    if not part.isdigit() or not 1 <= int(part) <= len(holder):
        raise RefusedError("what-if-path", f"{part} is no entry of a list of {len(holder)}", "count from 1")
    return int(part) - 1


def _placed(value: Any, spot: Spot) -> Any:
    """The value with every place in it set to `spot`."""
    if isinstance(value, PlacedDict):
        value.at = spot
        for name in value:
            value[name] = _placed(value[name], spot)
            value.key_places[name] = value.value_places[name] = spot
    elif isinstance(value, PlacedList):
        value.at = spot
        value[:] = [_placed(one, spot) for one in value]
        value.item_places[:] = [spot] * len(value)
    return value
