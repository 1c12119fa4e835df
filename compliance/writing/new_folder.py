"""Makes a folder that is whole or not there at all."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from compliance.shipped import shipped


def copy_example(target: Path) -> None:
    """Copies the example project to `target`. Raises OSError where `target` exists or cannot be written."""
    if target.exists() or target.is_symlink():
        raise FileExistsError(17, "there is something of that name already; give a new name")
    parent = target.absolute().parent
    if not parent.is_dir():
        raise FileNotFoundError(2, f"the folder {parent} is not there")
    scratch = Path(tempfile.mkdtemp(prefix=".earthwall-", dir=parent))
    try:
        shutil.copytree(shipped("example_project"), scratch / "copy")
        (scratch / "copy").replace(target)
    finally:
        shutil.rmtree(scratch, ignore_errors=True)
