"""Openings that are not described yet, and the lintels that described ones lack."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.editing.file_edits import ValueEdit
from compliance.model.project import Project
from compliance.model.walls import Lintel
from compliance.refused import RefusedError
from compliance.report.value_words import counted
from compliance.start.continuing.section import Section, edit, field_edits, free_marks
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.interview.optional_questions import called
from compliance.start.interview.structure_questions import named
from compliance.start.interview.wall_questions import LINTEL, field_question, opening_questions
from compliance.start.project_files.field_help import read_words
from compliance.start.shapes.walls_so_far import openings_of


def _says(project: Project) -> str:
    holes = [hole for wall in project.walls.values() for hole in wall.openings.values()]
    bare = sum(hole.lintel is None for hole in holes)
    return counted(len(holes), "opening") + (f", {bare} without a lintel" if bare else "")


def _questions(project: Project, answers: Answers) -> Iterator[Question]:
    walls = {mark: {"name": wall.name or ""} for mark, wall in project.walls.items()}
    marks = tuple(walls)
    yield Question(
        "openings_in", "Which walls have a door or window that is not described yet? Enter when none has",
        lambda text: read_words(text, marks), choices=named(walls),
        help="Openings are asked wall by wall, each from where the wall begins. On the plan above a wall begins at the "
        "corner that its from: names.\\n     from >----[ o o ]--------< to\\n          start  width",
    )  # fmt: skip
    for mark in filter(None, answers["openings_in"].split(", ")):
        yield from opening_questions(answers, project.project.units, mark, called(mark, walls[mark]))
    for mark, wall in project.walls.items():
        for name, hole in wall.openings.items():
            if hole.lintel is None:
                yield from _lintel(
                    answers, f"walls.{mark}.openings.{name}.lintel", f"{mark} {name}", project.project.units
                )


def _lintel(answers: Answers, path: str, opening: str, units: str) -> Iterator[Question]:
    key = f"{path}.material"
    yield field_question(key, f"What carries the wall over {opening}", Lintel, "material", units)
    if answers[key]:
        for name, asks in LINTEL:
            yield field_question(f"{path}.{name}", asks, Lintel, name, units)


def _edits(project: Project, answers: Answers) -> list[ValueEdit]:
    found: list[ValueEdit] = []
    for mark in filter(None, answers.get("openings_in", "").split(", ")):
        if mark not in project.walls:
            raise RefusedError("start-choice", f"{mark} is no wall any more", "name a wall of the plan")
        taken = list(project.walls[mark].openings)
        for hole in openings_of(answers, mark).values():
            name = next(free_marks("D" if hole["kind"] == "door" else "N", taken))
            taken.append(name)
            found.append(edit(("walls", mark, "openings", name), hole))
    return found + field_edits(answers, ("walls",))


OPENINGS_SECTION = Section(
    "openings", "doors and windows, and their lintels", _says, questions=_questions, edits=_edits
)
