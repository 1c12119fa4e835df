"""What a command returns to the shell."""

from __future__ import annotations

from enum import IntEnum


class ExitCode(IntEnum):
    """Scripts rely on these: a meaning never changes."""

    OK = 0  # done; of a check: everything meets
    NOT_MET = 1  # done, but something does not meet, or gets worse
    ERROR = 2  # a file, an argument or the output has an error; nothing was written
    INTERRUPTED = 130  # Ctrl-C, as shells count it: 128 and the number of the signal


SIGNALED = 128
"""A command that is ended by a signal returns this plus the number of the signal."""


def exit_code_of_check(all_meet: bool) -> ExitCode:
    """Of a check that came to an end."""
    return ExitCode.OK if all_meet else ExitCode.NOT_MET
