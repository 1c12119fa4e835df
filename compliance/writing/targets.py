"""Where a command may write: a new file, or one that this tool wrote before. Nothing else is replaced unasked."""

from __future__ import annotations

import re
from pathlib import Path

_CREATOR = "earthwall"
_MOST_BYTES = 400_000_000
_LONGEST_NAME = 120
_NO_NAME = re.compile(r"[^\w. ()+-]+")


class TargetError(ValueError):
    """A file that is not replaced; the message says why and what to do instead."""


def file_name(text: str) -> str:
    """A name for a file from words that a user wrote: letters, digits and a few marks, never a path, never hidden."""
    return _NO_NAME.sub("-", text)[:_LONGEST_NAME].strip(" .") or "unnamed"


def allow_target(path: Path, force: bool = False) -> None:
    """Raises TargetError where `path` is there and is not a PDF that this tool wrote; with `force` any regular file
    may be replaced. Raises OSError where it cannot be looked at."""
    if not path.exists() and not path.is_symlink():
        return
    if not path.is_file():
        raise TargetError(f"{path} is there and is no regular file; give another name")
    if not force and not _ours(path):
        raise TargetError(
            f"{path} is there and was not written by earthwall; give another name, or --force replaces it"
        )


def _ours(path: Path) -> bool:
    """Whether a file is a PDF whose creator is this tool."""
    if path.stat().st_size > _MOST_BYTES:
        return False
    data = path.read_bytes()
    if not data.startswith(b"%PDF-"):
        return False
    return f"/Creator ({_CREATOR})".encode() in data or _creator_within(path) == _CREATOR


def _creator_within(path: Path) -> str:
    """The creator of a PDF whose particulars are packed; empty where none can be read."""
    from pypdf import PdfReader
    from pypdf.errors import PyPdfError

    try:
        found = PdfReader(path).metadata
        return str(found.creator or "") if found else ""
    except (PyPdfError, OSError, ValueError, KeyError, TypeError, RecursionError):
        return ""
