"""Photos and papers that were dropped in: what they are by their content, and where they would lie in the folder."""

from __future__ import annotations

from pathlib import Path

from compliance.desk.uploads.held_uploads import free_name, last_part
from compliance.documents.attachments.pictures import Picture, read_picture
from compliance.editing.evidence_files import day_in_picture
from compliance.files.file_kinds import PDF, PDF_BEGINS, PICTURES, refuse_wrong_kind
from compliance.problems import ProblemsFound
from compliance.reading.plain_file import decoded
from compliance.record import record
from compliance.refused import RefusedError, shortened

TEXTS = (".txt", ".md", ".csv")
TAKEN = (*PICTURES, PDF, *TEXTS)
_MOST_TEXT = 200_000


@record
class ProofUpload:
    """`file` is where it would lie in the folder; `picture` it upright, None for what is none; `title` and `dated` are
    proposed from its name and from what a picture says of itself."""

    file: str
    data: bytes
    title: str
    dated: str
    picture: Picture | None


def proof_upload(folder: Path, name: str, data: bytes) -> ProofUpload:
    """Raises RefusedError for what is neither a picture, nor a PDF, nor a text."""
    suffix = suffix_by_content(name, data)
    picture = read_picture(data) if suffix in PICTURES else None
    day = day_in_picture(data) if picture else None
    file = free_name(folder, "photos" if picture else "papers", name, suffix)
    title = last_part(name).stem.replace("_", " ").strip()
    return ProofUpload(file, data, title=title, dated=day.isoformat() if day else "", picture=picture)


def suffix_by_content(name: str, data: bytes) -> str:
    """The ending that a file should have, whatever it is called. Raises RefusedError (`attachment-kind`)."""
    ending = last_part(name).suffix.lower()
    for suffix, begins in ((".jpg", PICTURES[".jpg"]), (".png", PICTURES[".png"]), (PDF, PDF_BEGINS)):
        if data.startswith(begins):
            return suffix
    refuse_wrong_kind(name, data)  # a HEIC photo, and what only calls itself a picture
    if ending not in TEXTS:
        wrong = f"{shortened(name)} is neither a picture, nor a PDF, nor a text"
        raise RefusedError("attachment-kind", wrong, f"save it as one of {', '.join(TAKEN)}")
    if not data.strip() or len(data) > _MOST_TEXT:
        wrong = f"the text has {len(data):,} bytes"
        raise RefusedError("attachment-size", wrong, f"attach from 1 to {_MOST_TEXT:,}, or a PDF of it")
    try:
        decoded(data, name, "attachment")
    except ProblemsFound as found:
        first = found.problems[0]
        raise RefusedError(first.code, first.wrong, first.instead) from None
    return ending
