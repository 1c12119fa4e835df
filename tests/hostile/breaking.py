"""Runs the tool and ends it, without a chance to clear up, just before its n-th step that changes the disk.

    python -m tests.hostile.breaking N COMMAND ARGS...

Steps are those that Python's audit events tell of (docs.python.org/3/library/audit_events.html): opening for writing,
linking, renaming, removing, making folders, changing rights. Leaves with 0 or its own code where there were fewer.
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


if __name__ == "__main__":
    sys.dont_write_bytecode = True
    number = int(sys.argv[1])
    sys.argv = ["earthwall", *sys.argv[2:]]
    from compliance.__main__ import main

    break_before(number)
    main()
