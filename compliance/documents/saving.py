"""Putting a finished file in its place: whole, or not at all."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path


def save_whole(path: Path, data: bytes) -> None:
    """Write `data` to `path` through a file beside it. Raises OSError and leaves what was there untouched."""
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with part.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            part.unlink()
        raise
