"""The last check of a folder, kept while the desk is open and made anew when a file changes."""

from __future__ import annotations

import threading
import time
from collections.abc import Mapping
from dataclasses import field
from pathlib import Path

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.editing.edit_history import EditHistory
from compliance.editing.file_edits import digests
from compliance.files.file_states import Seen, looked_at
from compliance.output.files.write_targets import PAPERS_FOLDER
from compliance.problems import Problem, ProblemsFound
from compliance.record import record, replace
from compliance.remedies.changes import Change
from compliance.report.answer.answer import Answer, answer
from compliance.report.answer.nearest_changes import nearest_by_cause

_QUIET = 0.3
"""Seconds without a page asked for or a new check, after which changes are looked for: who is at work goes first."""


@record
class Snapshot:
    """What the pages show. `number` counts up with every change of it; `checked` is the last check that could be made,
    None before there is one; `problems` stand in the way of reading the files as they are now. `nearest` is the
    nearest change by the key of a cause, for those looked for so far; `is_complete` where all were. `digests` are those
    of the files it was made from, `to_undo` and `to_redo` the steps that can be taken back or made again. On pages that
    go to a phone (`is_for_phone`) stand only the forms that a phone may send."""

    number: int = 0
    checked: Checked | None = None
    found: Answer | None = None
    problems: tuple[Problem, ...] = ()
    nearest: Mapping[str, Change | None] = field(default_factory=dict)
    is_complete: bool = True
    digests: Mapping[str, str] = field(default_factory=dict)
    to_undo: str = ""
    to_redo: str = ""
    is_for_phone: bool = False


class _OutdatedError(Exception):
    """A newer check is there."""


class KeptCheck:
    """`lock` is held by whoever works on a check, much of which is worked out when it is first asked for."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.lock = threading.RLock()
        self.history = EditHistory(folder)
        self.now = Snapshot()
        self._seen: Seen | None = None
        self._asked = 0.0

    def look(self, for_page: bool = True) -> Snapshot:
        """The check of the files as they stand, made anew where one of them changed since the last look."""
        with self.lock:
            seen = self._looked_at()
            if for_page or seen != self._seen:
                self._asked = time.monotonic()
            if seen != self._seen:
                self._seen = seen
                self.now = self._made(self.now)
            return replace(self.now, to_undo=self.history.to_undo, to_redo=self.history.to_redo)

    def _looked_at(self) -> Seen:
        """The state of the files; papers that were made say nothing new of the project."""
        inputs = self.now.checked.inputs if self.now.checked else frozenset()
        papers = self.folder / PAPERS_FOLDER
        seen = looked_at(self.folder)
        return {path: one for path, one in seen.items() if not path.is_relative_to(papers) or path.resolve() in inputs}

    def _made(self, last: Snapshot) -> Snapshot:
        read = digests(self.folder)  # before: of what changes in between, a form is refused
        try:
            checked = check_folder(self.folder)
        except ProblemsFound as found:
            return replace(last, number=last.number + 1, problems=tuple(found.problems), digests=read)
        earth_only = checked.project.is_earth_only
        found_now = None if earth_only else answer(checked)
        return Snapshot(last.number + 1, checked, found=found_now, is_complete=earth_only, digests=read)

    def tell(self) -> None:
        """Let the pages look again, for something else than the check is new."""
        with self.lock:
            self.now = replace(self.now, number=self.now.number + 1)

    def complete(self) -> None:
        """Look for the nearest changes of the last check, while nobody waits for a page; a new check ends that."""
        with self.lock:
            start = self.now
            if start.is_complete or start.checked is None or start.found is None:
                return
            try:
                self._let_in(start)
                nearest = nearest_by_cause(start.checked, start.found, lambda: self._let_in(start))
            except _OutdatedError:
                return
            self.now = replace(start, number=start.number + 1, nearest=nearest, is_complete=True)

    def _let_in(self, start: Snapshot) -> None:
        """Give the lock, held once, to whoever waits for it, until all has been quiet for a while. Raises
        _OutdatedError where the snapshot is no longer that of `start`."""
        self.lock.release()
        try:
            time.sleep(0)
            while (rest := self._asked + _QUIET - time.monotonic()) > 0:
                time.sleep(rest)
        finally:
            self.lock.acquire()
        self.look(for_page=False)
        if self.now is not start:
            raise _OutdatedError


class Watcher(threading.Thread):
    """Looks at the folder now and then until it is told to end."""

    _EVERY = 0.25

    def __init__(self, kept: KeptCheck) -> None:
        super().__init__(name="watcher", daemon=True)
        self._kept = kept
        self._ended = threading.Event()

    def run(self) -> None:
        while not self._ended.wait(self._EVERY):
            self._kept.look(for_page=False)
            self._kept.complete()

    def end(self) -> None:
        self._ended.set()
