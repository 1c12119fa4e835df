"""A project folder into the model: `project.yaml`, the files it includes, and the lab tables."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import field
from pathlib import Path

from pydantic import ValidationError

from compliance.facts.common.fact import FieldPath
from compliance.files.safe_paths import inside
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.cross_checks.marks_and_shapes import cross_checks
from compliance.reading.cross_checks.material_checks import material_problems
from compliance.reading.cross_checks.whole_projects import drop_blank_sections, whole_project_problems
from compliance.reading.plain_file import NO_FILES, digest_of
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.reading.tables.lab_tables import read_lab_tables
from compliance.reading.validation import problems_of
from compliance.reading.yaml.placed import PlacedDict, PlacedList, place_of
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.record import record
from compliance.refused import RefusedError, at_most

PROJECT_FILE = "project.yaml"
INCLUDE = "include"
_MOST_INCLUDES = 50
_MOST_INCLUDED_BYTES = 4_000_000

Edit = Callable[[PlacedDict], None]
"""Changes what was read, all files put together, before it is looked at; may raise ProblemsFound."""


@record
class ReadProject:
    """A project as read. `files` are all input files by their path in the folder, with their bytes'
    hash; `warnings` what was read in one of several ways."""

    project: Project
    specimens: Mapping[str, Sequence[Specimen]]
    tree: PlacedDict
    files: Mapping[str, str]
    warnings: tuple[Problem, ...] = ()
    places: dict[FieldPath, Place] = field(default_factory=dict, compare=False, repr=False)

    def where(self, path: FieldPath) -> Place:
        """The place of a path of the project in the user's files; the nearest that exists."""
        place = self.places.get(path)
        if place is None:
            place = self.places[path] = place_of(self.tree, path)
        return place

    def digests_with(self, more: Iterable[tuple[str, Path]]) -> dict[str, str]:
        """The SHA-256 of all input files and of `more`, the rule sets and amendments, by name. Names are those inside
        the project folder, so that the folder's own place does not matter."""
        return {**self.files, **{Path(name).name: digest_of(path, name) for name, path in more}}


def fingerprint_of(digests: Mapping[str, str]) -> str:
    """A hash over the names and hashes of all files."""
    whole = hashlib.sha256()
    for name, digest in sorted(digests.items()):
        whole.update(f"{name}\0{digest}\n".encode())
    return whole.hexdigest()


def read_project(folder: Path, edit: Edit | None = None, new_files: Mapping[str, bytes] = NO_FILES) -> ReadProject:
    """Everything of a project folder, as `edit` changes it; lab tables among `new_files`, by their path in the folder,
    are read as if they lay there. Raises ProblemsFound with all problems of all files,
    their files named by the path of the folder as given."""
    try:
        return _read(folder, edit, new_files)
    except ProblemsFound as found:
        raise ProblemsFound(_in_folder(folder, problem) for problem in found.problems) from None


def read_tree(folder: Path) -> PlacedDict:
    """What the files of a project hold, put together, with its places: looked at no further. Raises ProblemsFound for
    files that are no YAML or cannot be put together."""
    problems: list[Problem] = []
    try:
        tree, _ = _tree(folder, problems)
    except ProblemsFound as found:
        problems += found.problems
    if problems:
        raise ProblemsFound(_in_folder(folder, problem) for problem in problems)
    return tree


def _in_folder(folder: Path, problem: Problem) -> Problem:
    place = problem.place
    shown = (folder / place.file).as_posix()
    return Problem(
        Place(shown, place.line, place.column),
        code=problem.code,
        wrong=problem.wrong,
        instead=problem.instead,
        warning=problem.warning,
    )


def _read(folder: Path, edit: Edit | None, new_files: Mapping[str, bytes]) -> ReadProject:
    if not os.path.isdir(folder):  # noqa: PTH112 - which, unlike pathlib, takes a name too long as not there
        wrong = "this is not a folder" if os.path.exists(folder) else "there is no such folder"  # noqa: PTH110
        raise ProblemsFound([Problem(Place("."), "folder-missing", wrong, "name the folder that holds project.yaml")])
    problems: list[Problem] = []
    tree, names = _tree(folder, problems)
    if edit:
        edit(tree)
    problems += whole_project_problems(tree)
    _fill_from_types(tree)
    project = _validate(tree, problems)
    practice = read_material_practice()
    specimens, lab_names, lab_problems = read_lab_tables(folder, project, tree, new_files)
    problems += lab_problems
    if project:
        problems += cross_checks(project, specimens, tree, folder)
        problems += material_problems(project, specimens, tree, practice)
    warnings = tuple(one for one in problems if one.warning)
    problems = [one for one in problems if not one.warning]
    if project is None or problems:
        raise ProblemsFound(at_most(problems, "too-many-problems"))
    names += [*lab_names, *(attachment.file for attachment in project.attachments.values())]
    by_set: dict[str, list[Specimen]] = {}
    for specimen in specimens:
        by_set.setdefault(specimen.set, []).append(specimen)
    files = {name: _digest(folder, name, new_files) for name in names}
    return ReadProject(project, specimens=by_set, tree=tree, files=files, warnings=warnings)


def _tree(folder: Path, problems: list[Problem]) -> tuple[PlacedDict, list[str]]:
    """All files put together, and their names."""
    try:
        tree = read_yaml(inside(folder, PROJECT_FILE), PROJECT_FILE)
    except RefusedError as refused:
        raise ProblemsFound([refused.at(Place(PROJECT_FILE))]) from None
    drop_blank_sections(tree)
    return tree, [PROJECT_FILE, *_include(folder, tree, problems)]


def _digest(folder: Path, name: str, new_files: Mapping[str, bytes]) -> str:
    if name in new_files:
        return hashlib.sha256(new_files[name]).hexdigest()
    return digest_of(folder / name, name)


def _validate(tree: PlacedDict, problems: list[Problem]) -> Project | None:
    try:
        about = tree.get("project")
        units = about.get("units") if isinstance(about, PlacedDict) else None
        return Project.model_validate(tree, context={"units": units})
    except ValidationError as error:
        problems += problems_of(error, tree, Project)
    return None


def _include(folder: Path, tree: PlacedDict, problems: list[Problem]) -> list[str]:
    """Merges the files that `include:` lists into `tree`, which loses that key. Returns their names."""
    if INCLUDE not in tree:
        return []
    listed = tree[INCLUDE]
    place = place_of(tree, (INCLUDE,))
    del tree[INCLUDE]
    if not isinstance(listed, PlacedList) or len(listed) > _MOST_INCLUDES:
        problems.append(Problem(place, "include", "include: is not a list of at most 50 files", "write - walls.yaml"))
        return []
    names: list[str] = []
    size = 0
    for index, name in enumerate(listed):
        at = Place(listed.file, *listed.item_places[index])
        if not isinstance(name, str) or name in (*names, PROJECT_FILE):
            problems.append(Problem(at, "include", f"{name!r} is no other file of the folder", "name each file once"))
            continue
        try:
            path = inside(folder, name)
            if not path.exists():
                raise RefusedError(
                    "file-missing", f"there is no file {name!r} in the folder", "add it or correct the name"
                )
            size += path.stat().st_size
            if size > _MOST_INCLUDED_BYTES:
                wrong = f"the included files hold more than {_MOST_INCLUDED_BYTES // 1_000_000} MB together"
                raise RefusedError("include-size", wrong, "describe one building in a folder")
            part = read_yaml(path, name)
        except RefusedError as refused:
            problems.append(refused.at(at))
            continue
        except ProblemsFound as found:
            if [one.code for one in found.problems] == ["yaml-empty"]:
                names.append(name)  # a form of which nothing is filled in yet
            else:
                problems += found.problems
            continue
        names.append(name)
        drop_blank_sections(part)
        problems += _merge(tree, part)
    return names


def _merge(tree: PlacedDict, part: PlacedDict) -> list[Problem]:
    """Adds the sections of an included file; a section of named things may stand in several files."""
    problems = []
    for section, value in part.items():
        if section == INCLUDE:
            at = place_of(part, (section,), at_key=True)
            problems.append(Problem(at, "include", "an included file includes others", "list them all in project.yaml"))
        elif section not in tree:
            tree[section] = value
            tree.key_places[section] = part.key_places[section]
            tree.value_places[section] = part.value_places[section]
        elif isinstance(value, PlacedDict) and isinstance(tree[section], PlacedDict):
            problems += _merge_marks(tree[section], value)
        elif isinstance(value, PlacedList) and isinstance(tree[section], PlacedList):
            tree[section].extend(value)
            tree[section].item_places.extend(value.item_places)
        else:
            at = place_of(part, (section,), at_key=True)
            problems.append(Problem(at, "include-twice", f"{section}: stands in two files", "keep it in one of them"))
    return problems


def _merge_marks(into: PlacedDict, more: PlacedDict) -> list[Problem]:
    problems = []
    for mark, value in more.items():
        if mark in into:
            at = place_of(more, (mark,), at_key=True)
            problems.append(Problem(at, "include-twice", f"{mark} stands in two files", "keep it in one of them"))
            continue
        into[mark] = value
        into.key_places[mark] = more.key_places[mark]
        into.value_places[mark] = more.value_places[mark]
    return problems


def _fill_from_types(tree: PlacedDict) -> None:
    """Gives each wall the fields of its type that it does not state itself, placed where the type states them."""
    kinds, walls = tree.get("wall_types"), tree.get("walls")
    if not isinstance(kinds, PlacedDict) or not isinstance(walls, PlacedDict):
        return
    for wall in walls.values():
        named = wall.get("type") if isinstance(wall, PlacedDict) else None
        kind = kinds.get(named) if isinstance(named, str) else None
        if not isinstance(kind, PlacedDict):
            continue
        own_section = any(name in wall for name in ("thickness", "thickness_base", "thickness_top"))
        for name, value in kind.items():
            if name in wall or (own_section and name in ("thickness", "thickness_base", "thickness_top")):
                continue
            wall[name] = value
            one_file = kind.file == wall.file
            wall.key_places[name] = kind.key_places[name] if one_file else wall.at
            wall.value_places[name] = kind.value_places[name] if one_file else wall.at
