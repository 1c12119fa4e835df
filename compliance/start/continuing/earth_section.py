"""Soils, their jars, trial bricks and mixes: what is not written yet, and more of each."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.editing.file_edits import ValueEdit
from compliance.model.materials import Soil
from compliance.model.project import Project
from compliance.report.value_words import counted
from compliance.start.continuing.section import Section, edit, free_marks
from compliance.start.interview.earth_questions import (
    broke_of,
    broke_question,
    drop_question,
    dug_question,
    jar_question,
    mix_question,
    read_names,
    row_question,
    soil_questions,
)
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.interview.mix_parts import material_of
from compliance.start.project_files.earth_sections import brick_tree, soil_tree

_SOIL_SOURCES = "clay-subsoil"


def _says(project: Project) -> str:
    broken = sum(one.largest_piece is not None or one.pieces is not None for one in project.trials.values())
    return ", ".join((
        counted(len(project.soils), "soil"), f"{counted(len(project.trials), 'trial brick')}, {broken} broken",
        counted(len(project.mixes), "mix", "mixes"),
    ))  # fmt: skip


def _questions(project: Project, answers: Answers) -> Iterator[Question]:
    units = project.project.units
    for mark, soil in project.soils.items():
        yield from _of_a_soil(mark, soil, units)
    yield Question(
        "more_soils", "More soils or sands? Names, separated by commas. Enter when there is none", read_names,
        "bank clay, masonry sand", help="A name that ends in sand or gravel is taken for an aggregate, any other for a "
        "soil dug for its clay. One more bucket from another hole is a soil of its own.",
    )  # fmt: skip
    added = _added_soils(project, answers)
    for mark, name in added.items():
        yield from soil_questions(f"soil.{mark}", f"{mark}, {name}", units)
    names = [f"{mark} {soil.name}" for mark, soil in project.soils.items()]
    names += [f"{mark} {name}" for mark, name in added.items()]
    if not names:
        return
    yield row_question("more_trials", "More trial bricks", names)
    new, whole = _added_bricks(project, answers), _unbroken(project)
    if new or any(project.trials[mark].drop_height is None for mark in whole):
        yield drop_question(units)
    for mark in whole:
        parts = ", ".join(f"{part:g} {soil}" for soil, part in project.trials[mark].parts.items())
        yield broke_question(f"trial.{mark}", mark, parts)
    for mark, text in new.items():
        yield broke_question(f"trial.{mark}", mark, text)
    chosen = {mix.trial for mix in project.mixes.values()}
    bricks = _broken(project, answers) - chosen
    if bricks:
        yield mix_question(
            "mix", tuple((mark, new.get(mark, "")) for mark in _in_order(project, new) if mark in bricks)
        )


def _of_a_soil(mark: str, soil: Soil, units: str) -> Iterator[Question]:
    called = f"{mark}, {soil.name}"
    if soil.material == _SOIL_SOURCES and soil.depth is None and soil.organic is None:
        yield dug_question(f"soil.{mark}.dug", called, units)
    if soil.jar is None and soil.grading is None:
        yield jar_question(f"soil.{mark}.jar", called, units)


def _added_soils(project: Project, answers: Answers) -> dict[str, str]:
    """New soils by the mark that each gets."""
    names = list(filter(None, answers.get("more_soils", "").split(", ")))
    return dict(zip(free_marks("S", list(project.soils)), names, strict=False))


def _added_bricks(project: Project, answers: Answers) -> dict[str, str]:
    bricks = list(filter(None, answers.get("more_trials", "").split(", ")))
    return dict(zip(free_marks("P", list(project.trials)), bricks, strict=False))


def _unbroken(project: Project) -> list[str]:
    """Bricks of which it is not written how they broke."""
    return [mark for mark, one in project.trials.items() if one.largest_piece is None and one.pieces is None]


def _in_order(project: Project, new: dict[str, str]) -> list[str]:
    return [*project.trials, *new]


def _broken(project: Project, answers: Answers) -> set[str]:
    """Bricks of which it is known how they broke."""
    there = set(project.trials) - set(_unbroken(project))
    return there | {key.removeprefix("trial.") for key, text in answers.items() if key.startswith("trial.") and text}


def _edits(project: Project, answers: Answers) -> list[ValueEdit]:
    found: list[ValueEdit] = []
    added = _added_soils(project, answers)
    for mark in project.soils:
        known = soil_tree(answers, f"soil.{mark}")
        found += [edit(("soils", mark, name), value) for name, value in known.items()]
    for mark, name in added.items():
        kind = material_of(name)
        described = {"name": name} | ({"material": kind} if kind else {}) | soil_tree(answers, f"soil.{mark}")
        found.append(edit(("soils", mark), described))
    new = _added_bricks(project, answers)
    bricks = {
        mark: brick_tree(
            text, [*project.soils, *added], answers.get(f"trial.{mark}", ""), answers.get("drop_height", "")
        )
        for mark, text in new.items()
    }
    for mark in _unbroken(project):
        broke = broke_of(answers.get(f"trial.{mark}", ""))
        if broke and answers.get("drop_height") and project.trials[mark].drop_height is None:
            broke |= {"drop_height": answers["drop_height"]}
        found += [edit(("trials", mark, name), value) for name, value in broke.items()]
    found += [edit(("trials", mark), brick) for mark, brick in bricks.items()]
    return found + _mix_edits(project, answers, bricks)


def _mix_edits(project: Project, answers: Answers, bricks: dict[str, dict[str, object]]) -> list[ValueEdit]:
    """The brick that was chosen, as a mix of its own."""
    mark = answers.get("mix", "")
    if not mark:
        return []
    if mark in bricks:
        brick = {name: bricks[mark][name] for name in ("parts", "straw", "straw_parts") if name in bricks[mark]}
    else:
        held = project.trials[mark]
        brick = {"parts": {soil: f"{part:g}" for soil, part in held.parts.items()}}
        brick |= {"straw": held.straw} if held.straw else {}
        brick |= {"straw_parts": f"{held.straw_parts:g}"} if held.straw_parts else {}
    name = "Wall mix" if not project.mixes else f"Mix of brick {mark}"
    return [edit(("mixes", next(free_marks("M", list(project.mixes)))), {"name": name, "trial": mark} | brick)]


EARTH_SECTION = Section("earth", "soils, jars, trial bricks and mixes", _says, questions=_questions, edits=_edits)
