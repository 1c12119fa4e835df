"""The papers in a project's folder for them: what is there, how old it is, and what may be opened."""

from __future__ import annotations

import contextlib
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path

from compliance.files.file_states import looked_at
from compliance.files.safe_paths import inside
from compliance.model.issued import ISSUED_FOLDER
from compliance.output.files.write_targets import PAPERS_FOLDER
from compliance.record import record
from compliance.refused import RefusedError

TYPES: Mapping[str, str] = {
    ".pdf": "application/pdf",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    ".csv": "text/csv",
}
_MOST_LISTED = 200


@record
class PaperFile:
    """A file by its path below the folder for papers, when it was made, and the file of the project that changed
    since; empty where none did."""

    name: str
    made: datetime
    size: int
    changed_since: str


def papers_there(folder: Path) -> list[PaperFile]:
    """Those that can be opened, newest first."""
    changes = {
        path.relative_to(folder).as_posix(): seen[0] for path, seen in looked_at(folder).items()
        if path.is_relative_to(folder) and path.relative_to(folder).parts[0] not in (PAPERS_FOLDER, ISSUED_FOLDER)
    }  # fmt: skip
    last = max(changes, key=lambda name: changes[name], default="")
    found = []
    for path in sorted((folder / PAPERS_FOLDER).rglob("*"))[:_MOST_LISTED]:
        name = path.relative_to(folder / PAPERS_FOLDER).as_posix()
        with contextlib.suppress(OSError):
            if paper_path(folder, name) is not None:
                state = path.stat()
                since = last if last and changes[last] > state.st_mtime_ns else ""
                found.append(PaperFile(name, datetime.fromtimestamp(state.st_mtime), state.st_size, since))
    return sorted(found, key=lambda one: one.made, reverse=True)


def paper_path(folder: Path, name: str) -> Path | None:
    """The file of a name below the folder for papers; None for what is not there, is of another kind, is hidden, or
    leads elsewhere."""
    if Path(name).suffix.lower() not in TYPES or any(part.startswith(".") for part in name.split("/")):
        return None
    try:
        path = inside(folder, f"{PAPERS_FOLDER}/{name}")
    except RefusedError:
        return None
    return path if path.is_relative_to(folder.resolve() / PAPERS_FOLDER) and path.is_file() else None
