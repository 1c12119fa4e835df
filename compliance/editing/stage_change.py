"""Moving a project on to another stage: one line under `project:`, all else left as it is."""

from __future__ import annotations

import re
from pathlib import Path

from compliance.editing.file_edits import EditRefusedError, Step, replace_files
from compliance.files.safe_paths import inside
from compliance.output.files.folder_lock import one_at_a_time
from compliance.reading.project_folder import read_project
from compliance.reading.yaml.placed import PlacedDict
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.refused import RefusedError
from compliance.stages import Stage

_HEAD = "project"


class StageError(EditRefusedError):
    """Why nothing is written; the message says what to do instead."""


def write_stage(folder: Path, stage: Stage) -> Step:
    """Writes `stage:` under `project:`. Raises EditRefusedError, ProblemsFound or OSError; then nothing is written."""
    with one_at_a_time(folder):
        tree = read_project(folder).tree
        head = tree[_HEAD]
        assert isinstance(head, PlacedDict)
        path: Path = folder / head.file
        try:
            inside(folder, head.file)
        except RefusedError as refused:
            raise StageError(f"{path.as_posix()}: {refused.wrong} ({refused.instead})") from None
        before = path.read_bytes()
        old = before.decode("utf-8-sig")
        new = _with_stage(old, stage)
        if new is None or not _only_stage_differs(old, new, stage, path):
            raise StageError(f"{path}: write stage: {stage.value} under project: yourself")
        step = Step(f"stage {stage.words}", {head.file: before}, {head.file: new.encode("utf-8")})
        replace_files(folder, step.before, step.after)
        return step


def _with_stage(text: str, stage: Stage) -> str | None:
    """The text with the stage in place of the one it states, or before the first other field; None where `project:` is
    no block."""
    lines = text.splitlines(keepends=True)
    at = next((n for n, line in enumerate(lines) if re.match(r"project:\s*(#.*)?$", line)), None)
    if at is None:
        return None
    fields = []
    for number in range(at + 1, len(lines)):
        if re.match(r"\S", lines[number]) and not lines[number].startswith("#"):
            break
        if field := re.match(r"( +)([a-z_]+):", lines[number]):
            fields.append((number, field[1], field[2]))
    if not fields:
        return None
    indent = fields[0][1]
    end = "\r\n" if lines[at].endswith("\r\n") else "\n"
    stated = [number for number, inset, name in fields if inset == indent and name == "stage"]
    if stated:
        note = re.search(r"\s+#.*", lines[stated[0]].rstrip("\r\n"))
        lines[stated[0]] = f"{indent}stage: {stage.value}{note[0] if note else ''}{end}"
    else:
        after = next((number for number, inset, name in fields if inset == indent and name == "date"), fields[0][0])
        lines.insert(after, f"{indent}stage: {stage.value}{end}")
    return "".join(lines)


def _only_stage_differs(old: str, new: str, stage: Stage, path: Path) -> bool:
    """Whether it reads as before but for the stage."""
    before, after = (parse_yaml(text, path.as_posix()) for text in (old, new))
    if after.get(_HEAD, {}).get("stage") != stage.value:
        return False
    rest = [
        {name: value for name, value in tree.items() if name != _HEAD}
        | {_HEAD: {name: value for name, value in tree[_HEAD].items() if name != "stage"}}
        for tree in (before, after)
    ]
    return rest[0] == rest[1]
