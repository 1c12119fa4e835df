"""What a form of the plan asks for, as edits of values."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from compliance.desk.plan.line_forms import DIRECTIONS
from compliance.desk.sent_forms import path_of_text, typed
from compliance.editing.drawn_plan.corners import PointText, corner_moved, end_by_length
from compliance.editing.drawn_plan.parts_added import part_added, part_removed
from compliance.editing.file_edits import EditRefusedError, ValueEdit
from compliance.facts.common.fact import FieldPath
from compliance.model.project import Project
from compliance.start.project_files.field_help import read_point
from compliance.units import Writer

Fields = Mapping[str, Sequence[str]]
_DIRECTIONS = {word: angle for angle, word in DIRECTIONS}
_OF_WALL = ("name", "type", "height", "thickness")
_HOLDERS = ("wall_types", "walls", "buttresses", "stems", "footings", "beams", "roofs")
"""Sections that forms of the plan write to."""


def wall_edits(project: Project, fields: Fields) -> tuple[ValueEdit, ...]:
    """A new wall. Raises EditRefusedError, RefusedError, MeasureError."""
    start, through = _point(fields, "from"), _text(fields, "through")
    value: dict[str, Any] = {name: text for name in _OF_WALL if (text := _text(fields, name))}
    end = _end(project, fields, start)
    if through:
        value["arc"] = {"from": list(start), "through": read_point(through), "to": end}
    else:
        value["run"] = {"from": list(start), "to": end}
    return (part_added(project, ("walls", _text(fields, "mark")), value),)


def _end(project: Project, fields: Fields, start: PointText) -> list[str]:
    to, length, direction = (_text(fields, name) for name in ("to", "length", "direction"))
    if to and (length or direction):
        raise EditRefusedError("the wall has both an end and a length; empty one of them")
    if to:
        return read_point(to)
    if not length or not direction:
        raise EditRefusedError("the wall has no end; write where it ends, or its length and direction")
    writer = Writer(project.project.units)
    return end_by_length(start, length, _DIRECTIONS.get(direction.casefold(), direction), writer)


def curve_edits(project: Project, fields: Fields) -> tuple[ValueEdit, ...]:
    """A wall between the same ends through another point, or straight where none is given. Raises EditRefusedError,
    RefusedError, MeasureError."""
    mark, through = _text(fields, "wall"), _text(fields, "through")
    wall = project.walls.get(mark)
    line = (wall.arc or wall.run) if wall else None
    if wall is None or line is None:
        raise EditRefusedError(f"there is no wall {mark} with a place in the plan")
    ends = {"from": [one.text for one in line.start], "to": [one.text for one in line.end]}
    if not through:
        if wall.run:
            raise EditRefusedError(f"{mark} is straight already; write a point that it passes through")
        return ValueEdit(("walls", mark, "arc"), None), ValueEdit(("walls", mark, "run"), ends)
    point = read_point(through)
    if wall.arc:
        return (ValueEdit(("walls", mark, "arc", "through"), point),)
    arc = {"from": ends["from"], "through": point, "to": ends["to"]}
    return ValueEdit(("walls", mark, "run"), None), ValueEdit(("walls", mark, "arc"), arc)


def corner_edits(project: Project, fields: Fields) -> tuple[ValueEdit, ...]:
    """The ends at one point moved to another. Raises as `corner_moved` does, and RefusedError."""
    at, to, writer = _point(fields, "at"), _point(fields, "to"), Writer(project.project.units)
    return corner_moved(project, at, to, writer, only=_text(fields, "only"))


def part_edits(project: Project, fields: Fields) -> tuple[ValueEdit, ...]:
    """A new part with the fields that were filled in. Raises EditRefusedError, FormError."""
    names, values = fields.get("field", []), fields.get("value", [])
    if len(names) != len(values):
        raise EditRefusedError("a field has no value, or a value no field")
    value: dict[str, Any] = {}
    for name, text in zip(names, values, strict=True):
        if text.strip():
            *above, last = map(str, path_of_text(name, shortest=1))
            holder = value
            for part in above:
                holder = holder.setdefault(part, {})
            holder[last] = typed(text)
    return (part_added(project, (*_holder(fields), _text(fields, "mark")), value),)


def removed_edits(project: Project, fields: Fields) -> tuple[ValueEdit, ...]:
    """A part taken away. Raises EditRefusedError, FormError."""
    return part_removed(project, _holder(fields))


def _holder(fields: Fields) -> FieldPath:
    path = path_of_text(_text(fields, "holder"), shortest=1)
    if path[0] not in _HOLDERS:
        raise EditRefusedError("no form of the plan writes there")
    return path


def _point(fields: Fields, name: str) -> PointText:
    x, y = read_point(_text(fields, name))
    return x, y


def _text(fields: Fields, name: str) -> str:
    return fields.get(name, [""])[0].strip()
