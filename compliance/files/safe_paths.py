"""Paths that a user writes into a project: always below the folder of the project, and the same on every system."""

from __future__ import annotations

from pathlib import Path

from compliance.files.characters import HIDDEN
from compliance.refused import RefusedError, shortened

_LONGEST = 240
_INSTEAD = "write a path inside the folder, as in photos/wall-1.jpg"
_LINE_MARKS = frozenset("\t\r\n")
_NO_NAME = frozenset('<>"|?*')
"""What Windows allows in no name, the marks that are refused on their own account left out."""
_NUMBERS = "123456789¹²³"
_DEVICES = frozenset({"con", "prn", "aux", "nul", "conin$", "conout$"}) | {
    f"{port}{number}" for port in ("com", "lpt") for number in _NUMBERS
}


def names_device(part: str) -> bool:
    """Whether Windows takes a name of a file or folder for one of its devices, whatever comes after its first dot."""
    return part.partition(".")[0].rstrip(" ").lower() in _DEVICES


def inside(folder: Path, relative: str) -> Path:
    """The resolved path of `relative` below `folder`; the file need not be there.

    Raises RefusedError: `path-long`, `path-empty`, `path-control-character`, `path-backslash`, `path-absolute`,
    `path-colon`, `path-character`, `path-parent`, `path-blank` (a part that begins or ends with a blank or ends with a
    dot, which Windows drops), `path-device` (a part that Windows keeps for a device), `path-unreadable` (a loop of
    links, or a name the system cannot hold), `path-outside` (a link that leads out).
    """
    _refuse_form(relative)
    try:
        root = folder.resolve()
        found = (root / relative).resolve()
    except (OSError, RuntimeError, ValueError) as error:
        # Path.resolve raises RuntimeError for a loop of links.
        wrong = f"{shortened(relative)} cannot be followed"
        raise RefusedError("path-unreadable", wrong, "check the name and the links on the way") from error
    if any(part.is_symlink() for part in (found, *found.parents) if part != root and part.is_relative_to(root)):
        # From Python 3.13 on, Path.resolve leaves a link of a loop as it is.
        wrong = f"{shortened(relative)} cannot be followed"
        raise RefusedError("path-unreadable", wrong, "check the name and the links on the way")
    if found == root:
        raise RefusedError("path-empty", f"{shortened(relative)} is the folder itself", _INSTEAD)
    if not found.is_relative_to(root):
        raise RefusedError(
            "path-outside", f"{shortened(relative)} leads out of the folder by a link", "copy the file into it"
        )
    return found


def _refuse_form(relative: str) -> None:
    wording = shortened(relative)
    if len(relative) > _LONGEST:
        raise RefusedError("path-long", f"the path has {len(relative):,} characters", f"keep to {_LONGEST} at most")
    if not relative.strip():
        raise RefusedError("path-empty", "the path is empty", _INSTEAD)
    if HIDDEN.search(relative) or not _LINE_MARKS.isdisjoint(relative):
        raise RefusedError("path-control-character", f"{wording} holds a hidden character", "type the path again")
    if "\\" in relative:
        raise RefusedError("path-backslash", f"{wording} has a backslash", "part folders with /")
    if relative.startswith("/"):
        raise RefusedError("path-absolute", f"{wording} begins at the root of the disk", _INSTEAD)
    if ":" in relative:
        raise RefusedError("path-colon", f"{wording} has a colon", "leave out drive letters, and colons in names")
    if found := _NO_NAME.intersection(relative):
        wrong = f"{wording} holds {' '.join(sorted(found))}, which some systems allow in no name"
        raise RefusedError("path-character", wrong, "rename the file or folder with letters, digits, - and _")
    parts = relative.split("/")
    if ".." in parts:
        raise RefusedError("path-parent", f"{wording} leads upwards", _INSTEAD)
    if any(part != part.strip() or (part.endswith(".") and part != ".") for part in parts):
        raise RefusedError(
            "path-blank", f"{wording} has a part with a blank or a dot at its end", "rename the file or folder"
        )
    if device := next(filter(names_device, parts), None):
        wrong = f"{wording} cannot be opened on Windows, where {shortened(device)} is the name of a device"
        raise RefusedError("path-device", wrong, "rename the file or folder, as in plan-con.pdf for con.pdf")
