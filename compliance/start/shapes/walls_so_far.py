"""The walls that the answers describe so far: a rectangle, a table, or one after the other."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from compliance.start.interview.interview_question import Answers
from compliance.start.project_files.field_help import read_point
from compliance.start.shapes.building_shapes import LINES, SIZES, WALLS_WORD, outline_walls, refuse_no_room
from compliance.start.shapes.outline_path import path_walls
from compliance.start.shapes.wall_table import ENDINGS, read_wall_table
from compliance.units import Writer, measure

SAME = "same"
"""An opening like the last one that was described, in another place."""
NAMES = {"W1": "south wall", "W2": "east wall", "W3": "north wall", "W4": "west wall"}


def is_table(answer: str) -> bool:
    return answer.lower().endswith(ENDINGS)


def is_of_a_wall(key: str) -> bool:
    """Whether a question is about a wall that is described by itself; it may not be whole yet."""
    return key.startswith("walls.")


def walls_of(answers: Answers) -> dict[str, dict[str, Any]]:
    """What stands under `walls:`, by mark. The outer walls of a rectangle take their section from their type."""
    length = answers["length"]
    if is_table(length):
        walls: dict[str, dict[str, Any]] = read_wall_table(Path(length))
        walls = {
            mark: {"type": "outer", **wall} if wall.get("use") == "exterior" else wall for mark, wall in walls.items()
        }
    elif length == WALLS_WORD:
        walls = {}
    elif length == LINES:
        walls = path_walls(answers["path"])
    elif length in SIZES:
        walls = outline_walls(answers)
    else:
        walls = _rectangle(answers)
    number = 1
    while answers.get(f"walls.{number}.from"):
        mark = _free(walls)
        walls[mark] = one_wall(answers, number)
        number += 1
    for mark, wall in walls.items():
        openings = openings_of(answers, mark)
        if openings:
            wall["openings"] = openings
    return walls


def _free(walls: dict[str, dict[str, Any]]) -> str:
    return next(mark for index in range(1, 10_000) if (mark := f"W{index}") not in walls)


def _rectangle(answers: Answers) -> dict[str, dict[str, Any]]:
    """Four walls round the outside sizes, along their center lines, corner to corner. Raises RefusedError:
    `start-shape`."""
    writer = Writer("si" if answers["units"] == "si" else "us")
    thick = measure(answers["thickness"], "thickness").si
    for name in ("length", "width"):
        refuse_no_room(answers[name], answers["thickness"])
    east, north = (measure(answers[name], "length").si - thick for name in ("length", "width"))
    x, y, zero = (writer.write(value, "coordinate") for value in (east, north, 0.0))
    corners = [[zero, zero], [x, zero], [x, y], [zero, y]]
    return {
        mark: {"name": name, "type": "outer", "run": {"from": corners[index], "to": corners[(index + 1) % 4]}}
        for index, (mark, name) in enumerate(NAMES.items())
    }


def one_wall(answers: Answers, number: int) -> dict[str, Any]:
    def given(name: str) -> str:
        return answers.get(f"walls.{number}.{name}", "")

    wall: dict[str, Any] = {"name": given("name")} if given("name") else {}
    outer = given("use") in ("", "exterior")
    wall |= {"type": "outer"} if outer else {"use": given("use")}
    wall["run"] = {"from": read_point(given("from")), "to": read_point(given("to") or given("from"))}
    for name in ("height", "thickness"):
        if not outer or given(name) != answers.get(name):
            wall[name] = given(name)
    return {name: value for name, value in wall.items() if value}


def like(answers: Answers, stem: str) -> str:
    """The stem of the opening that this one is like: itself, or for `same` the last before it that was described."""
    found = stem
    for key, text in answers.items():
        if key.startswith("openings.") and key.endswith(".kind") and text not in ("", SAME):
            found = key.removesuffix("kind")
        if key == f"{stem}kind":
            break
    return found if answers.get(f"{stem}kind") == SAME else stem


def openings_of(answers: Answers, mark: str) -> dict[str, dict[str, Any]]:
    """The whole openings of a wall: those whose last question has been answered."""
    found: dict[str, dict[str, Any]] = {}
    number = 1
    while answers.get(f"openings.{mark}.{number}.kind"):
        own = f"openings.{mark}.{number}."
        stem = like(answers, own)
        one: dict[str, Any] = {name: answers.get(stem + name, "") for name in ("kind", "width", "height", "sill")}
        one["start"] = answers.get(f"{own}start", "")
        if answers.get(stem + "lintel"):
            one["lintel"] = {"material": answers[stem + "lintel"]}
            for name in ("bearing", "depth", "width"):
                if answers.get(stem + f"lintel_{name}"):
                    one["lintel"][name] = answers[stem + f"lintel_{name}"]
        if all(one[name] for name in ("start", "width", "height", "sill")):
            found[f"{'D' if one['kind'] == 'door' else 'N'}{number}"] = one
        number += 1
    return found
