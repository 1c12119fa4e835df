"""Keeping two runs of the tool from changing the files of one folder at the same time."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path


@contextlib.contextmanager
def one_at_a_time(folder: Path) -> Iterator[None]:
    """Waits until no other run is inside for this folder. Leaves no file behind, even where a run is killed.

    Holds nothing where the system cannot lock a folder; whole files are written there all the same.
    """
    try:
        import fcntl

        handle = os.open(folder, os.O_RDONLY)
    except (ImportError, OSError):
        yield
        return
    try:
        with contextlib.suppress(OSError):
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)
