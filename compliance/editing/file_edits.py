"""Values of a project written to the files where they stand: in their place, whole or not at all, and taken back again.

Nothing is written over what somebody else wrote meanwhile: an edit names the bytes that it was made from.
"""

from __future__ import annotations

import contextlib
import hashlib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from compliance.editing.yaml_splice import SpliceError, removed, spliced
from compliance.editing.yaml_values import flow_text
from compliance.facts.common.fact import FieldPath
from compliance.files.atomic_files import write_all
from compliance.files.safe_paths import inside
from compliance.output.files.folder_lock import one_at_a_time
from compliance.reading.project_folder import PROJECT_FILE, read_project
from compliance.reading.yaml.placed import PlacedDict, PlacedList
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import record
from compliance.refused import RefusedError


class EditRefusedError(ValueError):
    """Why nothing was written; the message says what to do instead."""


class ChangedMeanwhileError(EditRefusedError):
    """A file is not the one that the edit was made from."""


@record
class ValueEdit:
    """`value` at `path` of the project as it is read, all files put together; None takes the entry away."""

    path: FieldPath
    value: Any

    @property
    def words(self) -> str:
        name = ".".join(str(part + 1) if isinstance(part, int) else part for part in self.path)
        return f"{name}: {flow_text(self.value)}" if self.value is not None else f"{name} taken away"


@record
class Step:
    """What was done once: the bytes of each file before and after, by its path in the folder."""

    words: str
    before: Mapping[str, bytes]
    after: Mapping[str, bytes]


def digests(folder: Path) -> dict[str, str]:
    """The SHA-256 of each YAML file of the project, by its path in the folder."""
    found = {}
    for path in sorted(folder.rglob("*.yaml")):
        name = path.relative_to(folder).as_posix()
        if not name.startswith("."):
            with contextlib.suppress(OSError):
                found[name] = digest_of(path.read_bytes())
    return found


def write_edits(folder: Path, edits: Sequence[ValueEdit], seen: Mapping[str, str]) -> Step:
    """Make the edits in the files where their values stand. `seen` are the digests of the files that the edits were
    made from. Raises ChangedMeanwhileError, EditRefusedError, SpliceError, OSError, and ProblemsFound where the
    project would not read afterwards: nothing is written then."""
    with one_at_a_time(folder):
        before: dict[str, bytes] = {}
        texts: dict[str, str] = {}
        tree = read_project(folder).tree
        for one in edits:
            name, path = place_in_files(tree, one.path, folder)
            if name not in texts:
                before[name] = path_of(folder, name).read_bytes()
                if seen.get(name, "") != digest_of(before[name]):
                    raise ChangedMeanwhileError(f"{name} was changed meanwhile; what you typed was not written")
                texts[name] = before[name].decode("utf-8")
            texts[name] = removed(texts[name], path) if one.value is None else spliced(texts[name], path, one.value)
        read_project(folder, lambda tree: edit_tree(tree, edits))
        step = Step(
            "; ".join(one.words for one in edits), before, {name: text.encode() for name, text in texts.items()}
        )
        for name, data in before.items():
            if path_of(folder, name).read_bytes() != data:
                raise ChangedMeanwhileError(f"{name} was changed meanwhile; what you typed was not written")
        write_files(folder, step.after)
        return step


def place_in_files(tree: PlacedDict, path: FieldPath, folder: Path) -> tuple[str, FieldPath]:
    """The file that holds a path of the project, or would, and the path in it."""
    node: Any = tree
    file = tree.file
    for depth, part in enumerate(path):
        if depth == 1 and isinstance(node, PlacedList) and isinstance(part, int):
            files = [getattr(one, "file", file) for one in node]
            file = files[part] if part < len(files) else (files[-1] if files else file)
            path = (path[0], sum(one == file for one in files[:part]), *path[2:])
        known = part in node if isinstance(node, PlacedDict) else isinstance(part, int) and part < len(node)
        if not known:
            if depth == 0:
                file = _file_with_blank(folder, str(part)) or PROJECT_FILE
            break
        node = node[part]
        if not isinstance(node, PlacedDict | PlacedList):
            break
        file = node.file
        if depth == 1:  # files are put together by section and mark: all below a mark stands where the mark stands
            break
    return file, path


def _file_with_blank(folder: Path, section: str) -> str | None:
    """The file whose form asks for a section that no file has."""
    for path in sorted(folder.glob("*.yaml")):
        with contextlib.suppress(OSError, UnicodeDecodeError):
            if f"\n# {section}:" in path.read_text("utf-8"):
                return path.name
    return None


def edit_tree(tree: PlacedDict, edits: Sequence[ValueEdit]) -> None:
    """The edits made in what was read, before it is looked at. Raises LookupError, TypeError or SpliceError where a
    path leads nowhere."""
    for one in edits:
        holder: Any = tree
        *above, last = one.path
        for part, below in zip(above, one.path[1:], strict=True):
            if _is_missing(holder, part):
                empty = "[]" if isinstance(below, int) else "{}"
                _put(holder, part, parse_yaml(f"value: {empty}", holder.file)["value"])
            holder = holder[part]
            if not isinstance(holder, PlacedDict | PlacedList):
                raise SpliceError(f"{part} holds a value, and nothing below it")
        if one.value is None:
            del holder[last]
        else:
            _put(holder, last, parse_yaml(f"value: {flow_text(one.value)}", holder.file)["value"])


def _is_missing(holder: PlacedDict | PlacedList, part: str | int) -> bool:
    return holder.get(str(part)) is None if isinstance(holder, PlacedDict) else part == len(holder)


def _put(holder: PlacedDict | PlacedList, part: str | int, value: Any) -> None:
    if isinstance(holder, PlacedDict):
        holder[str(part)] = value
        holder.key_places[str(part)] = holder.value_places[str(part)] = (0, 0)
        return
    if not isinstance(part, int):
        raise SpliceError(f"{part} is no number of an entry of a list")
    holder[part : part + 1] = [value]
    holder.item_places[part : part + 1] = [(0, 0)]


def write_files(folder: Path, files: Mapping[str, bytes]) -> None:
    """Files by their path in the folder, all or none."""
    write_all({path_of(folder, name): data for name, data in files.items()})


def path_of(folder: Path, name: str) -> Path:
    try:
        return inside(folder, name)
    except RefusedError as refused:
        raise EditRefusedError(f"{name}: {refused.wrong} ({refused.instead})") from None


def digest_of(data: bytes) -> str:
    """The SHA-256 of a file's bytes."""
    return hashlib.sha256(data).hexdigest()
