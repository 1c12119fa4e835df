"""The roof, what the walls stand on with the site, the permit, and the tests: what the files do not say yet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from compliance.editing.file_edits import ValueEdit
from compliance.facts.common.fact import FieldPath
from compliance.model.base import Described
from compliance.model.project import Project
from compliance.model.structure import BondBeam, Footing, Roof, Stem
from compliance.report.value_words import counted
from compliance.start.continuing.section import Section, edit, field_edits, free_marks, lacking_fields
from compliance.start.interview.first_questions import roof_question
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.interview.optional_questions import (
    BEAM,
    FOOTING,
    PERMIT,
    ROOF,
    SITE,
    STEM,
    permit_field,
    tests_question,
)
from compliance.start.interview.structure_questions import ground_question
from compliance.start.project_files.project_sections import BEAM as BEAM_MARK
from compliance.start.project_files.project_sections import FOOTING as FOOTING_MARK
from compliance.start.project_files.project_sections import ROOF as ROOF_MARK
from compliance.start.project_files.project_sections import STEM as STEM_MARK
from compliance.start.project_files.project_sections import roof_of

_Parts = tuple[str, str, str, type[Described], tuple[tuple[str, str], ...]]
_STANDS_ON: tuple[_Parts, ...] = (
    ("stems", "stem", STEM_MARK, Stem, STEM), ("footings", "footing", FOOTING_MARK, Footing, FOOTING),
    ("beams", "beam", BEAM_MARK, BondBeam, BEAM),
)  # fmt: skip
"""Section, field of a wall, mark of the first, model and questions."""


def _says_roof(project: Project) -> str:
    return ", ".join(f"{mark} {roof.kind}" for mark, roof in project.roofs.items()) or "none described"


def _roof_questions(project: Project, answers: Answers) -> Iterator[Question]:
    units = project.project.units
    if not project.roofs:
        yield roof_question(units)
    for mark, roof in project.roofs.items() if project.roofs else ((ROOF_MARK, None),):
        if roof is not None or answers["roof"]:
            about = f"Roof {mark}: " if len(project.roofs) > 1 else ""
            fields = ROOF if roof is None else (("span", "Its clear span"), *ROOF)
            yield from lacking_fields(("roofs", mark), roof, Roof, fields=fields, units=units, about=about)


def _roof_edits(project: Project, answers: Answers) -> list[ValueEdit]:
    new = answers.get("roof", "")
    made = [edit(("roofs", ROOF_MARK, name), text) for name, text in roof_of(new).items()] if new else []
    return made + field_edits(answers, ("roofs",))


def _says_ground(project: Project) -> str:
    stated = sum(getattr(project.site, name) is not None for name, _ in (("soil_group", ""), *SITE))
    parts = ", ".join(
        counted(len(held), word) for held, word in
        ((project.stems, "stem wall"), (project.footings, "footing"), (project.beams, "bond beam"))
    )  # fmt: skip
    return f"{stated} of {len(SITE) + 1} values of the site, {parts}"


def _ground_questions(project: Project, answers: Answers) -> Iterator[Question]:
    units = project.project.units
    if project.site.soil_group is None:
        yield ground_question()
    yield from lacking_fields(("site",), project.site, type(project.site), fields=SITE, units=units)
    for section, _, first, model, fields in _STANDS_ON:
        held: Mapping[str, Described] = getattr(project, section)
        for mark, one in held.items():
            yield from lacking_fields((section, mark), one, model, fields=fields[1:], units=units, about=f"{mark}: ")
        if not held:
            for question in lacking_fields((section, first), None, model, fields=fields, units=units):
                yield question
                if not answers[f"{section}.{first}.{fields[0][0]}"]:
                    break


def _ground_edits(project: Project, answers: Answers) -> list[ValueEdit]:
    """What was answered; a part that is new stands under every wall type, and under the walls without a type."""
    sections = tuple(section for section, *_ in _STANDS_ON)
    found = field_edits(answers, ("site", *sections))
    for section, field, first, *_ in _STANDS_ON:
        is_new = not getattr(project, section) and any(one.path[0] == section for one in found)
        for path, holder in _holders(project) if is_new else ():
            if getattr(holder, field) is None:
                found.append(edit((*path, field), first))
    return found


def _holders(project: Project) -> Iterator[tuple[FieldPath, Any]]:
    used = {wall.type for wall in project.walls.values() if wall.type}
    yield from ((("wall_types", mark), kind) for mark, kind in project.wall_types.items() if mark in used)
    yield from ((("walls", mark), wall) for mark, wall in project.walls.items() if not wall.type)


def _says_permit(project: Project) -> str:
    stated = sum(_stated(project, path) for _, path, *_ in PERMIT)
    return f"{stated} of {len(PERMIT)} values that an application asks for"


def _stated(project: Project, path: tuple[str, ...]) -> bool:
    held: Any = project
    for part in path:
        held = getattr(held, part, None)
    return held is not None


def _permit_questions(project: Project, answers: Answers) -> Iterator[Question]:
    for key, path, model, asks in PERMIT:
        no_lab = key.endswith("accreditation") and project.people.lab is None and not answers["people.lab"]
        if not _stated(project, path) and not no_lab:
            yield permit_field(key, path, model, asks, units=project.project.units)


def _permit_edits(project: Project, answers: Answers) -> list[ValueEdit]:
    return [edit(path, answers[key]) for key, path, *_ in PERMIT if answers.get(key)]


def _says_tests(project: Project) -> str:
    return counted(len(project.test_sets), "set") + " of specimens"


def _tests_questions(project: Project, answers: Answers) -> Iterator[Question]:
    for mark, mix in project.mixes.items():
        yield tests_question(f"tests.{mark}", f"mix {mark}, {mix.name}", "More sets" if project.test_sets else "Sets")


def _tests_edits(project: Project, answers: Answers) -> list[ValueEdit]:
    marks = free_marks("T", list(project.test_sets))
    return [
        edit(("test_sets", next(marks)), {"kind": kind, "mix": mix})
        for mix in project.mixes for kind in answers.get(f"tests.{mix}", "").split(", ") if kind
    ]  # fmt: skip


ROOF_SECTION = Section("roof", "its kind, loads and overhang", _says_roof, questions=_roof_questions, edits=_roof_edits)
GROUND_SECTION = Section(
    "ground", "site, stem walls, footings, bond beam", _says_ground, questions=_ground_questions, edits=_ground_edits
)  # fmt: skip
PERMIT_SECTION = Section(
    "permit", "lot, occupancy, people, laboratory", _says_permit, questions=_permit_questions, edits=_permit_edits
)  # fmt: skip
TESTS_SECTION = Section("tests", "sets of specimens", _says_tests, questions=_tests_questions, edits=_tests_edits)
