"""The digest of a large file that was read before is that of what it holds now."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

import pytest

from compliance.reading import plain_file
from compliance.reading.plain_file import digest_of


def test_a_change_that_hides_its_time_and_size_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(plain_file, "_SETTLED", -1)
    path = tmp_path / "a.jpg"
    path.write_bytes(b"a" * 200_000)
    before = path.stat()
    first = digest_of(path, "a.jpg")
    assert first == digest_of(path, "a.jpg") == hashlib.sha256(b"a" * 200_000).hexdigest()
    with path.open("r+b") as file:
        file.write(b"b")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert digest_of(path, "a.jpg") == hashlib.sha256(path.read_bytes()).hexdigest() != first


def test_what_changed_just_now_is_read_again(tmp_path: Path) -> None:
    path = tmp_path / "b.jpg"
    path.write_bytes(b"a" * 200_000)
    kept = dict(plain_file._DIGESTS)
    digest_of(path, "b.jpg")
    assert kept == plain_file._DIGESTS
