"""Writing a file so that the old one or the new one is there, whole, whatever happens, and nothing beside it."""

from __future__ import annotations

import contextlib
import errno
import os
import stat
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

NOTHING: Mapping[Path, bytes] = MappingProxyType({})
_LONGEST_STEM = 100  # of a name for the part, so that no name is too long once it is lengthened
# Linux can hold a file without a name until it is finished, so that a process killed while writing leaves nothing.
_NAMELESS: int = getattr(os, "O_TMPFILE", 0)


class AnotherWroteError(OSError):
    """A file is not the one that was to be replaced."""


def write_whole(path: Path, data: bytes, wanted: bytes | None = None) -> None:
    """Replaces `path`, or what it links to, in one step. Raises OSError; what was there is then untouched. Where
    `wanted` is given, what is replaced must hold just that: it is looked at once all else is ready, so that what
    another program saved meanwhile stays.

    Refuses what is no regular file (a device, a folder) and a file that is protected against writing.
    """
    target = Path(os.path.realpath(path))
    mode = _mode_of(target)
    part = target.with_name(f".{target.name[:_LONGEST_STEM]}.{os.getpid()}.part")
    try:
        if not _write_nameless(part, data):
            with part.open("xb") as file:
                _fill(file.fileno(), data)
        if mode is not None:
            part.chmod(mode)
        if wanted is not None and target.read_bytes() != wanted:
            raise AnotherWroteError(errno.EBUSY, "another program wrote it meanwhile", str(target))
        part.replace(target)
    finally:
        # After success there is no part any more; on failure its folder may be out of reach as well.
        with contextlib.suppress(OSError):
            part.unlink()
    _settle(target.parent)


def write_all(files: Mapping[Path, bytes], wanted: Mapping[Path, bytes] = NOTHING) -> None:
    """Each file whole, in order, in place of just what is `wanted` there; where one cannot be written, those before it
    are as they were. Raises OSError."""
    before: dict[Path, bytes | None] = {}
    try:
        for path, data in files.items():
            old = path.read_bytes() if path.exists() else None
            write_whole(path, data, wanted.get(path))
            before[path] = old
    except OSError:
        for path, old in before.items():
            with contextlib.suppress(OSError):
                path.unlink() if old is None else write_whole(path, old, files[path])
        raise


def _mode_of(target: Path) -> int | None:
    """The rights of the file that will be replaced; None where there is none. Raises OSError."""
    try:
        found = target.stat().st_mode
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(found):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(target))
    if not stat.S_ISREG(found):
        raise OSError(errno.EINVAL, "this is no regular file", str(target))
    if not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, "the file is protected against writing", str(target))
    return stat.S_IMODE(found)


def _write_nameless(part: Path, data: bytes) -> bool:
    """Writes `data` and only then gives it the name `part`. False where the system or the disk cannot do this."""
    if not _NAMELESS:
        return False
    try:
        handle = os.open(part.parent, _NAMELESS | os.O_WRONLY, 0o666)
    except OSError as error:
        if error.errno in (errno.EOPNOTSUPP, errno.EISDIR, errno.EINVAL, errno.ENOENT):
            return False
        raise
    try:
        _fill(handle, data)
        # With a folder handle Python follows the link to the nameless file; without one it would link the link.
        folder = os.open(part.parent, os.O_RDONLY)
        try:
            os.link(f"/proc/self/fd/{handle}", part.name, dst_dir_fd=folder)
        except FileNotFoundError:  # no /proc
            return False
        finally:
            os.close(folder)
    finally:
        os.close(handle)
    return True


def _fill(handle: int, data: bytes) -> None:
    """All of `data`, down to the disk."""
    view = memoryview(data)
    while view:
        view = view[os.write(handle, view) :]
    os.fsync(handle)


def _settle(folder: Path) -> None:
    """The new name down to the disk as well, where the system can."""
    if os.name != "posix":
        return
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
