"""`python -m compliance` does the same as `earthwall`."""

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


def main() -> None:
    """Runs the command and leaves with its exit code."""
    # Plugins of pydantic are looked for in every installed package at start; this tool has none and runs none.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
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
    """Exits with an error. What could not be written to standard output is dropped, or Python would try again."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    os.write(2, f"earthwall: {why}\n".encode())
    sys.exit(ExitCode.ERROR)


if __name__ == "__main__":
    main()
