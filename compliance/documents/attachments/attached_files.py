"""The files that a project attaches, each looked over so that nothing is written when one cannot be bound in."""

from __future__ import annotations

import hashlib
from pathlib import Path

from compliance.documents.attachments.pdf_inspection import Letter, read_letter
from compliance.documents.attachments.pictures import Picture, read_picture
from compliance.documents.page.errors import DocumentError
from compliance.documents.page.faces import TEXT, clean, face_for
from compliance.model.people import Attachment
from compliance.model.project import Project
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import decoded, read_bytes
from compliance.reading.project_folder import read_project
from compliance.reading.refused import RefusedError
from compliance.reading.safe_paths import inside
from compliance.reading.yaml.characters import checked
from compliance.record import record

MOST_BYTES = 40_000_000
MOST_BYTES_IN_ALL = 200_000_000
MOST_TEXT = 200_000
_PICTURES = {".png": b"\x89PNG\r\n\x1a\n", ".jpg": b"\xff\xd8\xff", ".jpeg": b"\xff\xd8\xff"}
_PDF = b"%PDF-"
_TEXTS = (".txt", ".md", ".csv")
Content = Picture | Letter | str | None


@record
class Bound:
    """An attachment as it goes into the bundle. `content` None: a kind of file that no page can show, handed over
    beside the bundle. `digest` is the SHA-256 of the file, `size` its bytes."""

    mark: str
    attachment: Attachment
    digest: str
    size: int
    content: Content


def read_attachments(folder: Path, project: Project) -> tuple[Bound, ...]:
    """Every attachment, in the order of the project. Raises ProblemsFound with what is wrong with any of them, each
    at the place where the project names its file."""
    bound: list[Bound] = []
    problems: list[Problem] = []
    for mark, attachment in project.attachments.items():
        try:
            bound.append(_bound(folder, mark, attachment))
            if sum(one.size for one in bound) > MOST_BYTES_IN_ALL:
                most = f"{MOST_BYTES_IN_ALL // 1_000_000} MB"
                raise RefusedError(
                    "attachment-size", f"the attachments are larger than {most} together", "leave some out"
                )
        except RefusedError as refused:
            wrong = f"{attachment.file}: {refused.wrong}"
            problems.append(Problem(_place(folder, mark), refused.code, wrong, refused.instead))
    if problems:
        raise ProblemsFound(problems)
    return tuple(bound)


def _place(folder: Path, mark: str) -> Place:
    """Found by reading the project again: only for a folder with a problem."""
    place = read_project(folder).where(("attachments", mark, "file"))
    return Place((folder / place.file).as_posix(), place.line, place.column)


def _bound(folder: Path, mark: str, attachment: Attachment) -> Bound:
    try:
        data = read_bytes(inside(folder, attachment.file), attachment.file, "attachment", MOST_BYTES)
    except ProblemsFound as found:
        first = found.problems[0]
        raise RefusedError(first.code, first.wrong, first.instead) from None
    content = _content(attachment.file, data)
    return Bound(mark, attachment, hashlib.sha256(data).hexdigest(), len(data), content)


def _content(name: str, data: bytes) -> Content:
    suffix = Path(name).suffix.lower()
    if suffix in _PICTURES:
        _begins(data, _PICTURES[suffix], suffix)
        return read_picture(data)
    if suffix == ".pdf":
        _begins(data, _PDF, suffix)
        return read_letter(data)
    return _text(data, name) if suffix in _TEXTS else None


def _begins(data: bytes, start: bytes, suffix: str) -> None:
    """What a file is called must be what it is."""
    if not data.startswith(start):
        wrong = f"the file does not begin as a {suffix} file does" if data else "the file is empty"
        raise RefusedError("attachment-kind", wrong, "attach the true file, with the ending of its kind")


def _text(data: bytes, name: str) -> str:
    if len(data) > MOST_TEXT:
        wrong = f"the text has {len(data):,} bytes"
        raise RefusedError("attachment-size", wrong, f"attach at most {MOST_TEXT:,}, or a PDF of it")
    try:
        text = checked(decoded(data, name, "attachment"), name, "attachment")
        text = clean(text.replace("\r\n", "\n").replace("\r", "\n"))
        face_for(text, TEXT)
    except ProblemsFound as found:
        first = found.problems[0]
        raise RefusedError(first.code, f"line {first.place.line}: {first.wrong}", first.instead) from None
    except DocumentError as error:
        raise RefusedError("attachment-glyph", str(error), "attach a PDF of it") from None
    return text
