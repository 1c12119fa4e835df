"""What was pasted or dropped in and is not kept yet: in memory alone, the last few of this run."""

from __future__ import annotations

from pathlib import Path, PurePath
from typing import Generic, TypeVar

from compliance.files.safe_paths import inside
from compliance.model.lab import own_table
from compliance.model.lab_columns import COLUMNS
from compliance.output.files.write_targets import file_name
from compliance.refused import RefusedError

T = TypeVar("T")
_MOST_HELD = 12
_OWN = frozenset(own_table(kind) for kind in COLUMNS)


class HeldUploads(Generic[T]):
    """By number; where there are too many the oldest is forgotten."""

    def __init__(self) -> None:
        self._count = 0
        self._held: dict[str, T] = {}

    def add(self, one: T) -> str:
        """Its number."""
        self._count += 1
        self._held[str(self._count)] = one
        for old in list(self._held)[:-_MOST_HELD]:
            del self._held[old]
        return str(self._count)

    def of(self, number: str) -> T | None:
        return self._held.get(number)


def last_part(name: str) -> PurePath:
    """Of a name that came with a file, whichever system it comes from."""
    return PurePath(name.replace("\\", "/").rpartition("/")[2])


def free_name(folder: Path, room: str, name: str, suffix: str) -> str:
    """A path in a room of the folder where nothing lies yet, by the last part of a name that came with a file, its
    ending left out. Raises RefusedError."""
    stem = file_name(last_part(name).stem if last_part(name).suffix else name)
    for number in range(1, 1000):
        found = f"{room}/{stem}{suffix}" if number == 1 else f"{room}/{stem}-{number}{suffix}"
        if found not in _OWN and not inside(folder, found).exists():
            return found
    raise RefusedError("path-unreadable", f"{stem}{suffix} has many namesakes", "rename the file")
