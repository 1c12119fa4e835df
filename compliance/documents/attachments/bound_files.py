"""The files that a project attaches, each looked over so that nothing is written when one cannot be bound in."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

from compliance.documents.attachments.pdf_inspection import Letter, read_letter
from compliance.documents.attachments.pictures import Picture, read_picture
from compliance.documents.page.errors import DocumentError
from compliance.documents.page.faces import TEXT, clean, face_for
from compliance.files.file_kinds import PDF, PICTURES, refuse_wrong_kind
from compliance.model.people import AttachedFile, Attachment
from compliance.problems import Place, Problem, ProblemsFound
from compliance.record import record
from compliance.refused import RefusedError

MOST_BYTES_IN_ALL = 200_000_000
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


def bind_attachments(files: Iterable[AttachedFile], place_of: Callable[[str], Place]) -> tuple[Bound, ...]:
    """Every attachment, in the order of the project. Raises ProblemsFound with what is wrong with any of them, each
    at the place where the project names its file, which `place_of` finds by its mark."""
    bound: list[Bound] = []
    problems: list[Problem] = []
    for file in files:
        try:
            bound.append(_bound(file))
            if sum(one.size for one in bound) > MOST_BYTES_IN_ALL:
                most = f"{MOST_BYTES_IN_ALL // 1_000_000} MB"
                raise RefusedError(
                    "attachment-size", f"the attachments are larger than {most} together", "leave some out"
                )
        except RefusedError as refused:
            wrong = f"{file.attachment.file}: {refused.wrong}"
            problems.append(Problem(place_of(file.mark), refused.code, wrong, refused.instead))
    if problems:
        raise ProblemsFound(problems)
    return tuple(bound)


def _bound(file: AttachedFile) -> Bound:
    if isinstance(file.content, RefusedError):
        raise file.content
    return Bound(
        file.mark,
        attachment=file.attachment,
        digest=file.digest,
        size=file.size,
        content=_content(file.attachment.file, file.content),
    )


def _content(name: str, data: bytes | str) -> Content:
    if isinstance(data, str):
        return _printable(data)
    refuse_wrong_kind(name, data)
    suffix = Path(name).suffix.lower()
    if suffix in PICTURES:
        return read_picture(data)
    return read_letter(data) if suffix == PDF else None


def _printable(text: str) -> str:
    try:
        text = clean(text)
        face_for(text, TEXT)
    except DocumentError as error:
        raise RefusedError("attachment-glyph", str(error), "attach a PDF of it") from None
    return text
