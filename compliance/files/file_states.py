"""When and how large the files of a folder are, to see what changed between two looks."""

from __future__ import annotations

from pathlib import Path

from compliance.files.shipped import shipped

Seen = dict[Path, tuple[int, int]]
_MOST_FILES = 5000


def looked_at(folder: Path) -> Seen:
    """Time of change and size of every file of the folder and of the shipped rule sets."""
    seen: Seen = {}
    for place in (folder, shipped("rulesets")):
        for path in sorted(place.rglob("*"))[:_MOST_FILES]:
            if any(part.startswith(".") for part in path.relative_to(place).parts):
                continue
            try:
                state = path.stat()
            except OSError:
                continue
            if path.is_file():
                seen[path] = (state.st_mtime_ns, state.st_size)
    return seen


def changed(before: Seen, now: Seen, folder: Path) -> list[str]:
    """Names of the files that came, went or changed."""
    paths = sorted(path for path in before.keys() | now.keys() if before.get(path) != now.get(path))
    return [(path.relative_to(folder) if path.is_relative_to(folder) else path).as_posix() for path in paths]
