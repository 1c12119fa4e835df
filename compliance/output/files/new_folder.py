"""Makes a folder that is whole or not there at all."""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from compliance.files.shipped import shipped
from compliance.model.issued import ISSUED_FOLDER

_PREFIX = ".earthwall-"
_SCHEMAS = "schemas"
_LEFT_SECONDS = 60.0


def copy_example(target: Path, name: str = "example_project") -> None:
    """Copies the shipped project `name` to `target` with the schemas for editors, but not what was issued of it: that
    belongs to the example. Raises OSError where `target` exists or cannot be written."""
    source, schemas = shipped(name).resolve(), shipped("example_project").resolve() / _SCHEMAS
    if target.exists() or target.is_symlink():
        raise FileExistsError(17, "there is something of that name already; give a new name")
    parent = target.absolute().parent
    if not parent.is_dir():
        raise FileNotFoundError(2, f"the folder {parent} is not there")
    if parent.resolve().is_relative_to(source):
        raise OSError(22, "the example cannot be copied into itself; give a name outside it")
    with scratch_in(parent) as scratch:
        try:
            shutil.copytree(source, scratch / "copy", ignore=shutil.ignore_patterns(ISSUED_FOLDER))
            if not (scratch / "copy" / _SCHEMAS).exists():
                shutil.copytree(schemas, scratch / "copy" / _SCHEMAS)
        except shutil.Error as error:
            # One reason for all files together: the first says enough.
            raise OSError(5, str(error.args[0][0][2])) from None
        (scratch / "copy").replace(target)


@contextlib.contextmanager
def scratch_in(parent: Path) -> Iterator[Path]:
    """A hidden folder in `parent` to make things ready in; gone afterwards. What a killed run left there goes too."""
    _clear_left_behind(parent)
    scratch = Path(tempfile.mkdtemp(prefix=_PREFIX, dir=parent))
    held = _hold(scratch)
    try:
        yield scratch
    finally:
        shutil.rmtree(scratch, ignore_errors=True)
        if held is not None:
            os.close(held)


def _clear_left_behind(parent: Path) -> None:
    """Scratch folders that no run holds any more, and that were not made just now."""
    for old in parent.glob(f"{_PREFIX}*"):
        with contextlib.suppress(OSError):
            if old.is_symlink() or not old.is_dir() or time.time() - old.stat().st_mtime < _LEFT_SECONDS:
                continue
            held = _hold(old)
            if held is not None:
                shutil.rmtree(old, ignore_errors=True)
                os.close(held)


def _hold(folder: Path) -> int | None:
    """Locks a folder for as long as this process lives; None where another holds it, or the system cannot."""
    try:
        import fcntl

        handle = os.open(folder, os.O_RDONLY)
    except (ImportError, OSError):
        return None
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(handle)
        return None
    return handle
