"""The example project with one text put into every field that takes words of a person."""

from __future__ import annotations

import copy
import json
import shutil
import types
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel

from compliance.model.base import TextOf
from compliance.model.project import Project
from compliance.reading.yaml.strict_yaml import read_yaml
from tests.conftest import EXAMPLE

READ_BY_THE_TOOL = {
    "file",
    "rule_sets",
    "rule",
    "about",
    "reading",
    "columns",
    "units",
    "every_row",
    "sheet",
    "revision",
}
"""Texts that are names of files, rules, columns or words of a test: they are refused in cases of their own."""


def sections() -> dict[str, Any]:
    """The example as one mapping, as if it were written in one file."""
    project = dict(read_yaml(EXAMPLE / "project.yaml", "project.yaml"))
    for name in project.pop("include"):
        project |= read_yaml(EXAMPLE / name, name)
    return copy.deepcopy(project)


def fill(text_of: Callable[[int], str]) -> tuple[dict[str, Any], list[str]]:
    """The example with `text_of(n)` in its n-th text field, fields that it leaves out filled too; and their paths."""
    project, paths = sections(), list[str]()
    for path, holder, name, most in _texts(Project, project, ""):
        holder[name] = text_of(len(paths))[:most]
        paths.append(path)
    return project, paths


def write_filled(folder: Path, project: dict[str, Any]) -> None:
    """The example's other files, and the project as JSON, which is YAML."""
    shutil.copytree(EXAMPLE, folder)
    for path in folder.glob("*.yaml"):
        path.unlink()
    (folder / "project.yaml").write_text(json.dumps(project, indent=1, default=str), "utf-8")


def _texts(model: type[BaseModel], data: dict[str, Any], path: str) -> Iterator[tuple[str, dict[str, Any], str, int]]:
    for name, field in model.model_fields.items():
        key = field.alias or name
        if name in READ_BY_THE_TOOL:
            continue
        most = _text_length([*field.metadata, field.annotation])
        if most is not None:
            yield f"{path}{key}", data, key, most
        for inner, within in _models(field.annotation, data.get(key), f"{path}{key}"):
            yield from _texts(inner, within[1], f"{within[0]}.")


def _text_length(parts: list[Any]) -> int | None:
    for part in parts:
        if isinstance(part, TextOf):
            return part.most
        if get_origin(part) is Annotated:
            found = _text_length(list(get_args(part)[1:]))
        elif get_origin(part) in (Union, types.UnionType):
            found = _text_length(list(get_args(part)))
        else:
            found = None
        if found is not None:
            return found
    return None


def _models(annotation: Any, value: Any, path: str) -> Iterator[tuple[type[BaseModel], tuple[str, dict[str, Any]]]]:
    """The records in a value: itself, the items of a list, the entries of a mapping."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        if isinstance(value, dict):
            yield annotation, (path, value)
        return
    for part in get_args(annotation):
        if isinstance(value, list):
            for index, item in enumerate(value):
                yield from _models(part, item, f"{path}[{index}]")
        elif isinstance(value, dict) and get_origin(annotation) is dict:
            for key, item in value.items():
                yield from _models(part, item, f"{path}.{key}")
        else:
            yield from _models(part, value, path)
