"""Lines of the project's own text files: shown around a place, and one of them replaced."""

from __future__ import annotations

import re
from pathlib import Path, PurePosixPath

from compliance.editing.file_edits import (
    ChangedMeanwhileError,
    EditRefusedError,
    Step,
    digest_of,
    path_of,
    replace_files,
)
from compliance.editing.file_entries import line_end_of
from compliance.output.files.folder_lock import one_at_a_time
from compliance.record import record

_SUFFIXES = (".yaml", ".csv")
_MOST_BYTES = 2_000_000
_AROUND = 4
_LINES = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+")
_MARK = "\ufeff"


@record
class Excerpt:
    """Lines of a file about one of them, each with its number; `text` is the line itself, `digest` the file's."""

    file: str
    line: int
    text: str
    lines: tuple[tuple[int, str], ...]
    digest: str


def excerpt(folder: Path, name: str, line: int) -> Excerpt | None:
    """The lines about a place; None where the file is none of the project's texts, or has no such line."""
    try:
        data = _data(folder, name)
        lines = [one.rstrip("\r\n") for one in _split(data.decode("utf-8"))]
    except (EditRefusedError, OSError, UnicodeDecodeError):
        return None
    lines = lines or [""]
    line = min(line, len(lines))
    if line < 1:
        return None
    first = max(line - _AROUND, 1)
    about = tuple(enumerate(lines[first - 1 : line + _AROUND], first))
    return Excerpt(name, line, text=lines[line - 1], lines=about, digest=digest_of(data))


def replace_line(folder: Path, name: str, line: int, text: str, digest: str) -> Step:
    """Put `text`, one line or several, in the place of a line. Raises ChangedMeanwhileError where the file is not the
    one of the digest, EditRefusedError or OSError; nothing is written then."""
    with one_at_a_time(folder):
        before = _data(folder, name)
        if digest_of(before) != digest:
            raise ChangedMeanwhileError(f"{name} was changed meanwhile; what you typed was not written")
        try:
            whole = before.decode("utf-8")
        except UnicodeDecodeError:
            raise EditRefusedError(f"{name} is no text; save it as UTF-8 in an editor") from None
        lines = _split(whole) or [""]
        if not 1 <= line <= len(lines):
            raise EditRefusedError(f"{name} has no line {line}")
        end, old = line_end_of(whole), lines[line - 1]
        new = end.join(text.replace("\r\n", "\n").replace("\r", "\n").split("\n"))
        lines[line - 1] = new + old[len(old.rstrip("\r\n")) :]
        mark = _MARK if whole.startswith(_MARK) else ""
        after = (mark + "".join(lines)).encode("utf-8")
        if after == before:
            raise EditRefusedError(f"line {line} of {name} stands so already; write another")
        step = Step(f"{name}, line {line}", {name: before}, {name: after})
        replace_files(folder, step.before, step.after)
        return step


def name_in(folder: Path, file: str) -> str:
    """The name in the folder of a file as a problem has it; empty where it lies elsewhere."""
    path = Path(file)
    return path.relative_to(folder).as_posix() if path.is_relative_to(folder) else ""


def _split(text: str) -> list[str]:
    found: list[str] = _LINES.findall(text.removeprefix(_MARK))
    return found


def _data(folder: Path, name: str) -> bytes:
    parts = PurePosixPath(name).parts
    if not parts or any(one.startswith(".") for one in parts) or PurePosixPath(name).suffix not in _SUFFIXES:
        raise EditRefusedError(f"{name or 'nothing'} is none of the texts of the project")
    path = path_of(folder, name)
    if not path.is_file() or path.stat().st_size > _MOST_BYTES:
        raise EditRefusedError(f"{name} is not there, or too long for this page")
    return path.read_bytes()
