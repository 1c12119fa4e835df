"""`python -m compliance` does the same as `earthwall`."""

import contextlib
import gc
import os
import signal
import sys
from types import FrameType

from compliance.exit_codes import SIGNALED, ExitCode

# What a command makes lives until it ends, and reference counting frees the rest. To look for cycles this seldom saves
# 4 % of the processor time of a check of the example and 10 % of its submittal (least of 20 and of 6 runs, against
# Python's own thresholds). Here and not in `main`: worker processes, which import this module first, do the same.
gc.set_threshold(200_000, 20, 20)

_AFTER_STANDARD_STREAMS = 3


def main() -> None:
    """Runs the command and leaves with its exit code."""
    # Plugins of pydantic are looked for in every installed package at start; this tool has none and runs none.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    # Papers bear the date of the project; a stamp from outside would change their bytes, or stop them.
    os.environ.pop("SOURCE_DATE_EPOCH", None)
    _open_standard_streams()
    from compliance.cli import app

    _clear_up_at_signals()
    try:
        app(prog_name="earthwall")
    except OSError as error:
        _leave_for(error)
    except MemoryError:
        _leave("there is not enough memory for this")
    except SystemExit:
        try:
            sys.stdout.flush()
        except OSError as error:
            _leave_for(error)
        raise


def _open_standard_streams() -> None:
    """Refuses to work where standard output is closed: the first file opened would take its place. What would be read
    from a closed input is nothing, and what would be said on a closed standard error goes nowhere."""
    if sys.stdout is None:
        _leave("standard output is closed, so nothing was done")
    while (handle := os.open(os.devnull, os.O_RDWR)) < _AFTER_STANDARD_STREAMS:
        pass
    os.close(handle)
    if sys.stdin is None:
        sys.stdin = open(os.devnull, encoding="utf-8")  # noqa: PTH123, SIM115 - open until the process ends
    if sys.stderr is None:
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123, SIM115


def _clear_up_at_signals() -> None:
    """Python ends at once on these signals, and a file half made would stay."""

    def stop(number: int, _: FrameType | None) -> None:
        sys.exit(SIGNALED + number)

    for name in ("SIGTERM", "SIGHUP"):
        known = getattr(signal, name, None)
        if known is not None and signal.getsignal(known) is signal.SIG_DFL:
            signal.signal(known, stop)


def _leave_for(error: OSError) -> None:
    """Commands report themselves what they cannot read or write: an error without a file name is about the output."""
    what = "the output cannot be written" if error.filename is None else repr(error.filename)
    _leave(f"{what}: {error.strerror or error}")


def _leave(why: str) -> None:
    """Exits with an error. What could not be written to the standard streams is dropped, or Python would try again."""
    with contextlib.suppress(OSError):
        os.write(2, f"earthwall: {why}\n".encode())
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (1, 2):
        os.dup2(nowhere, stream)
    sys.exit(ExitCode.ERROR)


if __name__ == "__main__":
    main()
