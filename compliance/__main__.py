"""`python -m compliance` does the same as `earthwall`."""

import contextlib
import os
import signal
import sys
from types import FrameType

from compliance.memory import collect_seldom

_AFTER_STANDARD_STREAMS = 3


def main() -> None:
    """Runs the command. What a command makes lives until it ends, so the collector of cycles is kept out of
    its way; reference counting frees the rest."""
    collect_seldom()
    # Plugins of pydantic are looked for in every installed package at start; this tool has none and runs none.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    # Papers bear the date of the project; a stamp from outside would change their bytes, or stop them.
    os.environ.pop("SOURCE_DATE_EPOCH", None)
    _open_standard_streams()
    from compliance.cli import app_for

    _clear_up_when_told_to_stop()
    try:
        app_for(sys.argv[1:])(prog_name="earthwall")
    except OSError as error:
        _leave_for(error)
    except MemoryError:
        _leave("there is not enough memory for this")


def run() -> None:
    """`main`, and then the end of the process: to take apart first what the system frees at once would be a twentieth
    of a check."""
    try:
        main()
    except SystemExit as ended:
        if not isinstance(ended.code, int | None):
            raise
        try:
            sys.stdout.flush()
            sys.stderr.flush()
        except OSError as error:
            _leave_for(error)
        os._exit(ended.code or 0)


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


def _clear_up_when_told_to_stop() -> None:
    """Python ends at once on these signals, and a file half made would stay."""

    def stop(number: int, _: FrameType | None) -> None:
        sys.exit(128 + number)

    for name in ("SIGTERM", "SIGHUP"):
        known = getattr(signal, name, None)
        if known is not None and signal.getsignal(known) is signal.SIG_DFL:
            signal.signal(known, stop)


def _leave_for(error: OSError) -> None:
    """Commands say themselves what they cannot read or write: what names no file is the output they print to."""
    what = "the output cannot be written" if error.filename is None else repr(error.filename)
    _leave(f"{what}: {error.strerror or error}")


def _leave(why: str) -> None:
    """Leaves with 2, without another try to flush what could not be written."""
    with contextlib.suppress(OSError):
        os.write(2, f"earthwall: {why}\n".encode())
    os._exit(2)


if __name__ == "__main__":
    run()
