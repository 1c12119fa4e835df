"""The files that a project attaches: pictures and PDFs as bytes, texts as text."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import Path

from compliance.files.characters import checked
from compliance.files.safe_paths import inside
from compliance.model.people import AttachedFile
from compliance.model.project import Project
from compliance.problems import Place, ProblemsFound
from compliance.reading.plain_file import decoded, read_bytes
from compliance.reading.project_folder import read_project
from compliance.refused import RefusedError

_MOST_BYTES = 40_000_000
_MOST_TEXT = 200_000
_MOST_LINES = 4_000
_TEXTS = (".txt", ".md", ".csv")


def read_attached_files(folder: Path, project: Project) -> Iterator[AttachedFile]:
    """Every attachment in the order of the project, one file in memory at a time."""
    for mark, attachment in project.attachments.items():
        name = attachment.file
        try:
            data = read_bytes(inside(folder, name), name, "attachment", _MOST_BYTES)
            content = _text(data, name) if Path(name).suffix.lower() in _TEXTS else data
        except RefusedError as refused:
            yield AttachedFile(mark, attachment=attachment, digest="", size=0, content=refused)
        except ProblemsFound as found:
            first = found.problems[0]
            yield AttachedFile(
                mark,
                attachment=attachment,
                digest="",
                size=0,
                content=RefusedError(first.code, first.wrong, first.instead),
            )
        else:
            yield AttachedFile(
                mark, attachment=attachment, digest=hashlib.sha256(data).hexdigest(), size=len(data), content=content
            )


def _text(data: bytes, name: str) -> str:
    if len(data) > _MOST_TEXT:
        wrong = f"the text has {len(data):,} bytes"
        raise RefusedError("attachment-size", wrong, f"attach at most {_MOST_TEXT:,}, or a PDF of it")
    try:
        text = checked(decoded(data, name, "attachment"), name, "attachment")
    except ProblemsFound as found:
        first = found.problems[0]
        raise RefusedError(first.code, f"line {first.place.line}: {first.wrong}", first.instead) from None
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if (lines := text.count("\n") + 1) > _MOST_LINES:
        wrong = f"the text has {lines:,} lines"
        raise RefusedError("attachment-size", wrong, f"attach at most {_MOST_LINES:,}, or the part that matters")
    return text


def place_of_attachment(folder: Path, mark: str) -> Place:
    """Where the project names the file; found by reading the project again, so only for a folder with a problem."""
    place = read_project(folder).where(("attachments", mark, "file"))
    return Place((folder / place.file).as_posix(), place.line, place.column)
