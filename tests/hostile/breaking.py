"""Ends this process, without a chance to clear up, just before its n-th step that changes the disk.

Steps are those that Python's audit events tell of (docs.python.org/3/library/audit_events.html): opening for writing,
linking, renaming, removing, making folders, changing rights. `host.py` runs the tool so.
"""

from __future__ import annotations

import os
import signal
import sys

_STEPS = {"os.link", "os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.chmod", "os.truncate", "os.symlink"}
_WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT


def break_before(step: int) -> None:
    left = step

    def watch(event: str, args: tuple[object, ...]) -> None:
        nonlocal left
        if event in _STEPS or (
            event == "open" and isinstance(args[2], int) and args[2] & _WRITING and args[0] != os.devnull
        ):
            left -= 1
            if left == 0:
                os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(watch)
