"""Where a command may write: a new file, or one that this tool wrote before. Nothing else is replaced unasked."""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from collections.abc import Collection
from pathlib import Path

from compliance.files.safe_paths import names_device

PAPERS_FOLDER = "out"
_CREATOR = "earthwall"
_MOST_BYTES = 400_000_000
_MOST_PARTICULARS = 100_000
_HEAD_OF_PAGE = 1_000
_PAGE, _GENERATOR = b"<!doctype html>", b'<meta name="generator" content="earthwall">'
_CHECKLIST = b"\xef\xbb\xbfCode,Rule set,Clause,Check,Answered,"
_PARTICULARS = re.compile(
    rb"<dc:creator>(?P<creator>[^<]{1,40})</dc:creator><cp:lastModifiedBy>(?P<last>[^<]{1,40})</cp:lastModifiedBy>"
    rb"<dcterms:created[^>]{0,60}>(?P<day>[^<]{1,40})</dcterms:created>"
    rb"<dcterms:modified[^>]{0,60}>(?P=day)</dcterms:modified>"
)
_LONGEST_NAME = 120
_NO_NAME = re.compile(r"[^\w. ()+-]+")


class TargetError(ValueError):
    """A file that is not replaced; the message says why and what to do instead."""


def file_name(text: str) -> str:
    """A name for a file from words that a user wrote: letters, digits and a few marks, never a path, never hidden,
    never that of a device."""
    name = _NO_NAME.sub("-", text)[:_LONGEST_NAME].strip(" .") or "unnamed"
    return f"_{name}" if names_device(name) else name


def paper_name(folder: Path, what: str) -> str:
    """How a paper of a project is called, without its ending; `what` may hold words of the project, such as its
    revision."""
    return file_name(f"{folder.resolve().name}-{what}")


def allow_target(path: Path, force: bool = False, inputs: Collection[Path] = ()) -> None:
    """Raises TargetError where `path` is there and is nothing that this tool wrote; with `force` any regular file
    may be replaced but one of the `inputs`. Raises OSError where it cannot be looked at."""
    if not path.exists() and not path.is_symlink():
        return
    if not path.is_file():
        raise TargetError(f"{path} is there and is no regular file; give another name")
    if path.resolve() in inputs:
        raise TargetError(f"{path} is a file that the project is read from; give another name")
    if not force and not _ours(path):
        raise TargetError(
            f"{path} is there and was not written by earthwall; give another name, or --force replaces it"
        )


def _ours(path: Path) -> bool:
    """Whether a file is one that this tool wrote: a PDF, a workbook or a page that names it, or the checklist as
    comma-separated values, known by its titles."""
    if path.stat().st_size > _MOST_BYTES:
        return False
    data = path.read_bytes()
    if data.startswith(b"%PDF-"):
        return f"/Creator ({_CREATOR})".encode() in data or _creator_within(path) == _CREATOR
    if data.startswith(b"PK"):
        return _is_our_workbook(data)
    return (data.startswith(_PAGE) and _GENERATOR in data[:_HEAD_OF_PAGE]) or data.startswith(_CHECKLIST)


def _is_our_workbook(data: bytes) -> bool:
    """Whether its particulars name this tool and nothing saved it since: other programs then write another day."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as file:
            info = file.getinfo("docProps/core.xml")
            if info.file_size > _MOST_PARTICULARS:
                return False
            found = _PARTICULARS.search(file.read(info))
            return found is not None and found["creator"] == found["last"] == _CREATOR.encode()
    except (zipfile.BadZipFile, KeyError, OSError, ValueError, NotImplementedError, RuntimeError, zlib.error):
        return False


def _creator_within(path: Path) -> str:
    """The creator of a PDF whose particulars are packed; empty where none can be read."""
    from pypdf import PdfReader
    from pypdf.errors import PyPdfError

    try:
        found = PdfReader(path).metadata
        return str(found.creator or "") if found else ""
    except (PyPdfError, OSError, ValueError, KeyError, TypeError, RecursionError):
        return ""
