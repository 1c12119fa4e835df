"""Values of a project written to the files where they stand: in their place, whole or not at all, and taken back again.

Nothing is written over what somebody else wrote meanwhile: an edit names the bytes that it was made from.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from compliance.editing.yaml_splice import SpliceError, removed, spliced
from compliance.editing.yaml_values import flow_text
from compliance.facts.common.fact import FieldPath
from compliance.files.atomic_files import AnotherWroteError, write_all, write_whole
from compliance.files.safe_paths import inside
from compliance.output.files.folder_lock import one_at_a_time
from compliance.reading.plain_file import NO_FILES
from compliance.reading.project_folder import PROJECT_FILE, read_project, read_tree
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


Contents = Mapping[str, bytes | None]
"""The bytes of files by their path in the folder; None for a file that is not there."""


@record
class Step:
    """What was done once: each file as it was before and as it is after."""

    words: str
    before: Contents
    after: Contents


def digests(folder: Path) -> dict[str, str]:
    """The SHA-256 of each YAML file of the project, by its path in the folder."""
    found = {}
    for path in sorted(folder.rglob("*.yaml")):
        name = path.relative_to(folder).as_posix()
        if not name.startswith("."):
            with contextlib.suppress(OSError):
                found[name] = digest_of(path.read_bytes())
    return found


def write_edits(
    folder: Path, edits: Sequence[ValueEdit], seen: Mapping[str, str], new_files: Mapping[str, bytes] = NO_FILES
) -> Step:
    """Make the edits in the files where their values stand, after `new_files` by their path in the folder, none of
    which may be there. `seen` are the digests of the files that the edits were made from. Raises ChangedMeanwhileError,
    EditRefusedError, SpliceError, OSError, and ProblemsFound where the project would not read afterwards: nothing is
    written then."""
    with one_at_a_time(folder), contextlib.ExitStack() as taken_back:
        before: dict[str, bytes] = {}
        texts: dict[str, str] = {}
        tree = read_tree(folder)
        for one in edits:
            name, path = place_in_files(tree, one.path, folder)
            if name not in texts:
                before[name] = path_of(folder, name).read_bytes()
                if seen.get(name, "") != digest_of(before[name]):
                    raise ChangedMeanwhileError(f"{name} was changed meanwhile; what you typed was not written")
                texts[name] = before[name].decode("utf-8")
            texts[name] = removed(texts[name], path) if one.value is None else spliced(texts[name], path, one.value)
        for name, data in new_files.items():
            taken_back.callback(_add_file(folder, name, data).unlink, missing_ok=True)
        read_project(folder, lambda tree: edit_tree(tree, edits))
        after = {name: text.encode() for name, text in texts.items()}
        words = "; ".join([*(f"new file {name}" for name in new_files), *(one.words for one in edits)])
        step = Step(words, {**dict.fromkeys(new_files), **before}, {**new_files, **after})
        replace_files(folder, before, after)
        taken_back.pop_all()
        return step


def _add_file(folder: Path, name: str, data: bytes) -> Path:
    """The path of a new file; never in place of another."""
    path = path_of(folder, name)
    if os.path.lexists(path):
        raise EditRefusedError(f"{name} is there already; nothing is replaced")
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, data)
    return path


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


def replace_files(folder: Path, before: Contents, after: Contents) -> None:
    """Write files as they are after, all or none; one of None is taken away once the others are written. Raises
    OSError, and ChangedMeanwhileError where one is not as it was before: what an editor saved meanwhile is not lost."""
    for name, data in before.items():
        if bytes_of(folder, name) != data:
            raise ChangedMeanwhileError(f"{name} was changed meanwhile; nothing was written")
    wanted = {path_of(folder, name): data for name, data in before.items() if data is not None}
    try:
        write_all({path_of(folder, name): data for name, data in after.items() if data is not None}, wanted)
    except AnotherWroteError as error:
        raise ChangedMeanwhileError(f"{Path(error.filename).name} was changed meanwhile; nothing was written") from None
    for name, data in after.items():
        if data is None:
            path_of(folder, name).unlink(missing_ok=True)


def bytes_of(folder: Path, name: str) -> bytes | None:
    """What a file holds; None where there is none. Raises EditRefusedError or OSError."""
    path = path_of(folder, name)
    return path.read_bytes() if path.exists() else None


def path_of(folder: Path, name: str) -> Path:
    try:
        return inside(folder, name)
    except RefusedError as refused:
        raise EditRefusedError(f"{name}: {refused.wrong} ({refused.instead})") from None


def digest_of(data: bytes) -> str:
    """The SHA-256 of a file's bytes."""
    return hashlib.sha256(data).hexdigest()
