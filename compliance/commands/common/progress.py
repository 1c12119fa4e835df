"""A bar on standard error while work lasts longer than a second; in a terminal only, and gone when the work is done."""

from __future__ import annotations

import shutil
import sys
import threading
import time

_AFTER = 1.0
_EVERY = 0.2
_MARKS = 24
_RUNNER = 4


class Progress:
    """`with Progress("judging") as bar:` and in it `bar.at(done, of)` where the steps of the work can be counted. Where
    they cannot, a mark runs to and fro beside the seconds."""

    def __init__(self, what: str) -> None:
        self._what, self._done, self._of = what, 0, 0
        self._over = threading.Event()
        self._drawn = 0
        self._thread = threading.Thread(target=self._run, daemon=True) if sys.stderr.isatty() else None

    def __enter__(self) -> Progress:
        if self._thread:
            self._thread.start()
        return self

    def __exit__(self, *raised: object) -> None:
        self._over.set()
        if self._thread:
            self._thread.join()

    def at(self, done: int, of: int) -> None:
        """So many steps of all are done."""
        self._done, self._of = done, of

    def _run(self) -> None:
        began = time.monotonic()
        wait = _AFTER
        while not self._over.wait(wait):
            self._show(bar_line(self._what, self._done, self._of, time.monotonic() - began))
            wait = _EVERY
        if self._drawn:
            self._show("")

    def _show(self, line: str) -> None:
        """Writes over what was drawn before, with blanks where it was longer: every terminal knows how."""
        fits = line[: max(shutil.get_terminal_size((80, 24)).columns - 1, 1)]
        blank = " " * (self._drawn - len(fits))
        sys.stderr.write(f"\r{fits}{blank}" + ("" if fits else "\r"))
        sys.stderr.flush()
        self._drawn = len(fits)


def bar_line(what: str, done: int, of: int, seconds: float) -> str:
    """What is done, how much of it, and since when; in characters that every terminal has."""
    if of > 0:
        share = min(max(done / of, 0.0), 1.0)
        filled = int(share * _MARKS)
        return f"{what} [{'#' * filled}{'.' * (_MARKS - filled)}] {100 * share:3.0f} %, {seconds:.0f} s"
    room = _MARKS - _RUNNER
    at = int(seconds / _EVERY) % (2 * room)
    at = min(at, 2 * room - at)
    return f"{what} [{'.' * at}{'#' * _RUNNER}{'.' * (room - at)}] {seconds:.0f} s"
