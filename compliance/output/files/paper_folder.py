"""Writes a folder of papers that belong together: all of them new, or all as they were."""

from __future__ import annotations

import os
from collections.abc import Collection, Mapping
from pathlib import Path

from compliance.output.files.new_folder import scratch_in
from compliance.output.files.write_targets import TargetError, allow_target


def allow_folder(folder: Path, force: bool = False, inputs: Collection[Path] = ()) -> None:
    """Raises TargetError where `folder` is there and holds anything that this tool did not write; with `force` regular
    files may be replaced, but none of the `inputs`. Raises OSError where it cannot be looked at."""
    if not folder.exists() and not folder.is_symlink():
        return
    if folder.is_symlink() or not folder.is_dir():
        raise TargetError(f"{folder} is there and is no folder; give another name, or one that ends in .pdf")
    for path in sorted(folder.iterdir()):
        if path.suffix.lower() != ".pdf":
            raise TargetError(f"{folder} holds {path.name}, which is no part of a submittal; give another name")
        allow_target(path, force, inputs)


def write_folder(folder: Path, files: Mapping[str, bytes], force: bool = False, inputs: Collection[Path] = ()) -> None:
    """Puts a new folder with exactly these files in the place of `folder`: made ready beside it, then exchanged.
    Between taking away the old and putting the new in its place there is neither for a moment, but never a part of
    each. Raises TargetError or OSError; what was there is then untouched."""
    with scratch_in(folder.absolute().parent) as scratch:
        fresh, old = scratch / "new", scratch / "old"
        fresh.mkdir()
        for name, data in files.items():
            with (fresh / name).open("xb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
        allow_folder(folder, force, inputs)
        was_there = folder.exists()
        if was_there:
            folder.rename(old)
        try:
            fresh.rename(folder)
        except OSError:
            if was_there:
                old.rename(folder)
            raise
