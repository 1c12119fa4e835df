"""Running something without the rights that let root read and write everything."""

from __future__ import annotations

import ctypes
import os
import subprocess
from pathlib import Path

from tests.hostile.running import HARD_TIMEOUT, Ran, command, environment


def without_privilege(*args: str, cwd: Path) -> Ran:
    """The tool run without the rights that let root read and write everything."""
    done = subprocess.run(
        command(*args), cwd=cwd, env=environment(), capture_output=True, timeout=HARD_TIMEOUT,
        preexec_fn=_drop_privileges, check=False,
    )  # fmt: skip
    return Ran(done.returncode, done.stdout.decode(), done.stderr.decode())


_DROP_FROM_BOUNDING_SET = 24
_CAPABILITIES = (1, 2)
"""CAP_DAC_OVERRIDE and CAP_DAC_READ_SEARCH: capabilities(7)."""


def _drop_privileges() -> None:
    """For `preexec_fn`: takes them from what is started next (Linux: prctl(2)). Nothing to take from a plain user."""
    if os.geteuid() == 0:
        libc = ctypes.CDLL(None)
        for capability in _CAPABILITIES:
            libc.prctl(_DROP_FROM_BOUNDING_SET, capability, 0, 0, 0)
