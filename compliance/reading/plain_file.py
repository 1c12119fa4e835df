"""Reading one text file: regular files only, never blocking, never more than asked for, UTF-8 only."""

from __future__ import annotations

import contextlib
import hashlib
import os
import stat
import time
from collections.abc import Iterator, Mapping
from io import BufferedReader
from pathlib import Path
from types import MappingProxyType

from compliance.problems import Place, Problem, ProblemsFound

# Opening a pipe would wait for a writer without O_NONBLOCK; without O_BINARY, Windows alters line ends.
_OPEN_FLAGS = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)
_BYTE_ORDER_MARK = b"\xef\xbb\xbf"
_OTHER_MARKS = (
    (b"\xff\xfe\x00\x00", "UTF-32"),
    (b"\x00\x00\xfe\xff", "UTF-32"),
    (b"\xff\xfe", "UTF-16"),
    (b"\xfe\xff", "UTF-16"),
)
NO_FILES: Mapping[str, bytes] = MappingProxyType({})
_OTHER_KINDS = (
    (stat.S_ISDIR, "a folder"),
    (stat.S_ISFIFO, "a pipe"),
    (stat.S_ISSOCK, "a socket"),
    (stat.S_ISCHR, "a device"),
    (stat.S_ISBLK, "a device"),
)


def read_text(path: Path, shown: str, prefix: str, most_bytes: int) -> str:
    """The text of the file at `path` as it stands, byte-order mark and line ends included.

    Raises ProblemsFound: `file-missing`, `file-not-regular`, `file-unreadable`, `<prefix>-size`,
    `<prefix>-encoding`.
    """
    return decoded(read_bytes(path, shown, prefix, most_bytes), shown, prefix)


def read_bytes(path: Path, shown: str, prefix: str, most_bytes: int) -> bytes:
    """The bytes of a regular file. Raises ProblemsFound as `read_text` does."""
    with _opened(path, shown) as file:
        data = file.read(most_bytes + 1)
    if len(data) > most_bytes:
        raise _found(
            shown,
            f"{prefix}-size",
            f"the file is larger than {most_bytes // 1_000_000} MB",
            "divide it into several files",
        )
    return data


_LARGE, _SETTLED, _MOST_KEPT = 100_000, 3_000_000_000, 2_000
_DIGESTS: dict[tuple[int, ...], str] = {}
"""Those of large files, by what tells that a file is the same: a program that stays does not read photos again at each
check. The time of the last change of a file cannot be set back by a program; of a file that changed within the last
seconds, a coarse clock could hide another change."""


def digest_of(path: Path, shown: str) -> str:
    """The SHA-256 of a regular file of any size, in hexadecimal. Raises ProblemsFound as `read_text` does."""
    with _opened(path, shown) as file:
        state = os.fstat(file.fileno())
        key = state.st_dev, state.st_ino, state.st_size, state.st_mtime_ns, state.st_ctime_ns
        if key in _DIGESTS:
            return _DIGESTS[key]
        found = hashlib.file_digest(file, "sha256").hexdigest()
        is_settled = time.time_ns() - max(state.st_mtime_ns, state.st_ctime_ns) > _SETTLED
        if state.st_size >= _LARGE and is_settled and len(_DIGESTS) < _MOST_KEPT:
            _DIGESTS[key] = found
        return found


@contextlib.contextmanager
def _opened(path: Path, shown: str) -> Iterator[BufferedReader]:
    """A regular file, open. Raises ProblemsFound where it is none, or where it cannot be opened or read."""
    try:
        _refuse_other_kinds(path.stat().st_mode, shown)
        with os.fdopen(os.open(path, _OPEN_FLAGS), "rb") as file:
            # Looked at again once open: the name may lead elsewhere by now.
            _refuse_other_kinds(os.fstat(file.fileno()).st_mode, shown)
            yield file
    except (FileNotFoundError, NotADirectoryError) as error:
        raise _found(shown, "file-missing", "there is no such file", "check the name and the folder") from error
    except (OSError, ValueError) as error:
        wording = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise _found(
            shown, "file-unreadable", f"the file cannot be read: {wording}", "check its name and the rights to read it"
        ) from error


def decoded(data: bytes, shown: str, prefix: str) -> str:
    """`data` as UTF-8 text. Raises ProblemsFound: `<prefix>-encoding`."""
    code = f"{prefix}-encoding"
    for mark, name in _OTHER_MARKS:
        if data.startswith(mark):
            raise ProblemsFound([Problem(Place(shown, 1, 1), code, f"the file is {name}", "save it as UTF-8")])
    if b"\0" in data[:2] and data[:2] != b"\0\0":
        # A plain letter as UTF-16 without a mark: every other byte is NUL.
        raise ProblemsFound([Problem(Place(shown, 1, 1), code, "the file looks like UTF-16", "save it as UTF-8")])
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: error.start].removeprefix(_BYTE_ORDER_MARK).replace(b"\r\n", b"\n").replace(b"\r", b"\n")
        line_start = before.rfind(b"\n") + 1
        place = Place(shown, before.count(b"\n") + 1, len(before[line_start:].decode("utf-8")) + 1)
        wrong = f"the byte 0x{data[error.start]:02X}, number {error.start + 1} in the file, is not UTF-8"
        raise ProblemsFound([Problem(place, code, wrong, "save the file as UTF-8")]) from error


def _refuse_other_kinds(mode: int, shown: str) -> None:
    if not stat.S_ISREG(mode):
        kind = next((wording for is_kind, wording in _OTHER_KINDS if is_kind(mode)), "no regular file")
        raise _found(shown, "file-not-regular", f"this is {kind}, not a file to read", "name a file")


def _found(shown: str, code: str, wrong: str, instead: str) -> ProblemsFound:
    return ProblemsFound([Problem(Place(shown), code, wrong, instead)])
