"""Writing a file so that the old one or the new one is there, whole, whatever happens."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


def write_whole(path: Path, data: bytes) -> None:
    """Replaces `path` in one step by way of a temporary file beside it. Raises OSError; nothing is left behind."""
    handle, name = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    scratch = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        scratch.chmod(path.stat().st_mode & 0o777 if path.exists() else 0o644)
        scratch.replace(path)
    finally:
        scratch.unlink(missing_ok=True)
