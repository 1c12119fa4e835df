"""The walls: which carry what, what their types lack, and more of them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from compliance.editing.file_edits import ValueEdit
from compliance.model.project import Project
from compliance.model.walls import WallBuild
from compliance.report.value_words import counted
from compliance.start.continuing.section import Section, edit, field_edits, free_marks
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.interview.optional_questions import OUTER
from compliance.start.interview.structure_questions import (
    Walls,
    loads_of,
    point_loads_question,
    roof_walls_question,
    wall_type_questions,
)
from compliance.start.interview.wall_questions import field_question, wall_questions
from compliance.start.shapes.walls_so_far import one_wall

_OUTER_TYPE = "outer"


def _says(project: Project) -> str:
    bearing = sum(wall.bears_load is True for wall in project.walls.values())
    return f"{counted(len(project.walls), 'wall')}, {bearing} said to carry load"


def _questions(project: Project, answers: Answers) -> Iterator[Question]:
    units = project.project.units
    for mark in _roofs_without_walls(project):
        yield roof_walls_question(f"roof_walls.{mark}", _named_walls(project), f"Which walls hold up the roof {mark}?")
    if not any(wall.loads for wall in project.walls.values()):
        yield point_loads_question("point_loads", units, _named_walls(project))
    for kind, marks in _by_type(project).items():
        yield from _of_a_type(project, answers, kind, marks)
    yield from wall_questions(answers, units, first=False)


def _of_a_type(project: Project, answers: Answers, kind: str, marks: list[str]) -> Iterator[Question]:
    """What some wall of a type lacks is asked of the type; of walls without one, of each."""
    for holder, called, walls in _holders(project, kind, marks):
        lacking = [
            name for name in WallBuild.model_fields if any(getattr(project.walls[one], name) is None for one in walls)
        ]
        if "method" in lacking:
            yield from wall_type_questions(f"{holder}.method", project.jurisdiction.rule_sets, which=called)
        carries = {mark for key in answers if key.startswith("roof_walls.") for mark in answers[key].split(", ")}
        for name, asks in OUTER:
            if name in lacking and not (name == "bears_load" and carries - {""}):
                asks_of = asks.replace("the outer walls", called)
                yield field_question(f"{holder}.{name}", asks_of, WallBuild, name, project.project.units)


def _holders(project: Project, kind: str, marks: list[str]) -> Iterator[tuple[str, str, list[str]]]:
    """Where fields go, whose they are in words, and the marks of the walls."""
    if kind:
        yield f"wall_types.{kind}", f"the walls of type {kind} ({', '.join(marks)})", marks
        return
    for mark in marks:
        if project.walls[mark].use != "garden":
            yield f"walls.{mark}", f"wall {mark}", [mark]


def _by_type(project: Project) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for mark, wall in project.walls.items():
        found.setdefault(wall.type or "", []).append(mark)
    return found


def _named_walls(project: Project) -> Walls:
    return {mark: {"name": wall.name or ""} for mark, wall in project.walls.items()}


def _roofs_without_walls(project: Project) -> list[str]:
    return [mark for mark, roof in project.roofs.items() if not roof.bears_on and not roof.beams]


def _edits(project: Project, answers: Answers) -> list[ValueEdit]:
    found: list[ValueEdit] = []
    holding: set[str] = set()
    for mark in _roofs_without_walls(project):
        if text := answers.get(f"roof_walls.{mark}", ""):
            found.append(edit(("roofs", mark, "bears_on"), [{"wall": wall} for wall in text.split(", ")]))
            holding |= set(text.split(", "))
    loads = loads_of(answers.get("point_loads", ""))
    for mark, wall in project.walls.items():
        if wall.bears_load is None and (holding or mark in loads):
            carries = mark in holding or mark in loads
            found.append(edit(("walls", mark, "bears_load"), "yes" if carries else "no"))
    for mark, some in loads.items():
        found += [edit(("walls", mark, "loads", f"L{number}"), one) for number, one in enumerate(some, 1)]
    found += [one for one in field_edits(answers, ("wall_types", "walls")) if not _is_number(one.path[1])]
    return found + [edit(("walls", mark), wall) for mark, wall in _added_walls(project, answers).items()]


def _is_number(part: object) -> bool:
    """Whether a key is about a wall that is described now, not of one that is there."""
    return str(part).isdigit()


def _added_walls(project: Project, answers: Answers) -> dict[str, dict[str, Any]]:
    marks = free_marks("W", list(project.walls))
    walls: dict[str, dict[str, Any]] = {}
    number = 1
    while answers.get(f"walls.{number}.from"):
        wall = one_wall(answers, number)
        if wall.get("type") == _OUTER_TYPE and _OUTER_TYPE not in project.wall_types:
            wall = {"use": "exterior"} | {name: value for name, value in wall.items() if name != "type"}
        wall |= {name: answers[f"walls.{number}.{name}"] for name in ("height", "thickness")}
        mixes = {one.mix for one in project.walls.values() if one.mix}
        if "type" not in wall and len(mixes) == 1:
            wall["mix"] = next(iter(mixes))
        walls[next(marks)] = wall
        number += 1
    return walls


WALLS_SECTION = Section(
    "walls", "which walls carry what, their types, more walls", _says, questions=_questions, edits=_edits
)  # fmt: skip
