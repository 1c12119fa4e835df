"""Answers kept in a file beside the folder to be, so that an interview can be taken up again; and answers from a
file that a person wrote."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

from compliance.files.atomic_files import write_whole
from compliance.problems import Place
from compliance.reading.yaml.placed import PlacedDict, PlacedList, place_of
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.start.interview.interview_question import Answers

_HEAD = "# Answers given so far. `earthwall start {folder}` goes on from here.\n"


def kept_file(folder: Path) -> Path:
    """`my_house-answers.yaml` beside `my_house`; inside it where an earlier run left it there."""
    inside = folder / f"{folder.name}-answers.yaml"
    return inside if inside.is_file() else folder.parent / inside.name


def keep(answers: Answers, path: Path, folder: Path) -> None:
    """Writes all answers, in order; without any there is no file. Raises OSError; the file is the old one or the new
    one, whole."""
    if not answers:
        path.unlink(missing_ok=True)
        return
    lines = [f"{json.dumps(key)}: {json.dumps(text, ensure_ascii=False)}\n" for key, text in answers.items()]
    write_whole(path, (_HEAD.format(folder=folder.name) + "".join(lines)).encode("utf-8"))


def kept(path: Path) -> Answers:
    """The answers of an earlier run; none where there is no such file. Raises ProblemsFound."""
    if not path.exists():
        return {}
    return {key: text for key, (text, _) in flat(read_yaml(path, path.as_posix())).items()}


def flat(tree: PlacedDict) -> dict[str, tuple[str, Place]]:
    """Every answer by its key, with its place: mappings and lists of mappings joined by dots, counted from 1; a list
    of plain values is one answer, its values separated by commas."""
    return {key: (text, place_of(tree, loc)) for key, text, loc in _flat(tree, (), ())}


def _flat(
    node: object, above: tuple[str, ...], loc: tuple[str | int, ...]
) -> Iterator[tuple[str, str, tuple[str | int, ...]]]:
    if isinstance(node, PlacedDict):
        for name, value in node.items():
            yield from _flat(value, (*above, name), (*loc, name))
    elif isinstance(node, PlacedList) and any(isinstance(one, PlacedDict | PlacedList) for one in node):
        for index, value in enumerate(node):
            yield from _flat(value, (*above, str(index + 1)), (*loc, index))
    elif isinstance(node, PlacedList):
        yield ".".join(above), ", ".join(map(_text, node)), loc
    else:
        yield ".".join(above), _text(node), loc


def _text(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:g}" if isinstance(value, float) else str(value)
