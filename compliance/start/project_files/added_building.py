"""The building described in a folder that began with the earth: one file more, named under `include:`."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from compliance.checking import check_folder
from compliance.editing.included_files import with_included
from compliance.files.atomic_files import write_whole
from compliance.model.project import Project
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.project_folder import PROJECT_FILE
from compliance.reading.yaml.placed import PlacedDict
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.start.interview.interview_question import Answers, Standing
from compliance.start.project_files.form_texts import building_file
from compliance.start.project_files.project_sections import project_tree

BUILDING_FILE = "building.yaml"
_NEW = ("jurisdiction", "walls", "wall_types", "roofs", "stems", "footings", "beams", "buttresses")
"""Sections of the new file, which may not stand anywhere else."""


def known_answers(project: Project) -> dict[str, str]:
    """What need not be asked again."""
    head = project.project
    return {"name": head.name, "begin": "building", "units": head.units}


def standing(project: Project) -> Standing:
    mixes = tuple((mark, mix.name) for mark, mix in project.mixes.items())
    return Standing(mixes, rule_sets=", ".join(project.jurisdiction.rule_sets))


def add_building(folder: Path, answers: Answers, there: Standing, today: date) -> None:
    """Checks the project with its building first, then writes the new file and names it. No line of what is there
    changes but that of `include:`. Raises ProblemsFound, EntryError or OSError."""
    tree = project_tree(answers, today, there)
    text = building_file(tree)
    part = parse_yaml(text, BUILDING_FILE)
    problems: list[Problem] = []

    def with_building(whole: PlacedDict) -> None:
        problems.extend(_standing_elsewhere(whole, part))
        if problems:
            raise ProblemsFound(problems)
        for section, value in part.items():
            _merge(whole, section, value, part)

    check_folder(folder, with_building)
    if (folder / BUILDING_FILE).exists():
        place = Place((folder / BUILDING_FILE).as_posix())
        raise ProblemsFound([Problem(place, "start-there", "the file is there already", "give it another name")])
    project_file = folder / PROJECT_FILE
    changed = with_included(project_file.read_bytes().decode("utf-8-sig"), BUILDING_FILE, project_file.as_posix())
    write_whole(folder / BUILDING_FILE, text.encode("utf-8"))
    write_whole(project_file, changed.encode("utf-8"))


def _standing_elsewhere(whole: PlacedDict, part: PlacedDict) -> list[Problem]:
    """Sections of the building, and marks or fields of any other, that both would hold."""
    instead = "move it to the walls by hand, or take it out first"
    problems = []
    for section, value in part.items():
        held = whole.get(section)
        if section in _NEW and held:
            place = Place(whole.file, *whole.key_places[section])
            problems.append(Problem(place, "start-there", f"{section}: is described already", instead))
        elif isinstance(held, PlacedDict) and isinstance(value, PlacedDict):
            problems += [
                Problem(Place(held.file, *held.key_places[name]), "start-there", f"{name} is there already", instead)
                for name in value
                if name in held
            ]
    return problems


def _merge(whole: PlacedDict, section: str, value: object, part: PlacedDict) -> None:
    """A section that both have holds the marks of both."""
    held = whole.get(section)
    if isinstance(held, PlacedDict) and isinstance(value, PlacedDict):
        for name in value:
            held[name] = value[name]
            held.key_places[name], held.value_places[name] = value.key_places[name], value.value_places[name]
        return
    whole[section] = value
    whole.key_places[section], whole.value_places[section] = part.key_places[section], part.value_places[section]
