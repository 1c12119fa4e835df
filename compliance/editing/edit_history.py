"""Steps of editing, to take back and to make again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from compliance.editing.file_edits import (
    Contents,
    EditRefusedError,
    Step,
    ValueEdit,
    replace_files,
    write_edits,
)
from compliance.output.files.folder_lock import one_at_a_time
from compliance.reading.plain_file import NO_FILES


class EditHistory:
    """The steps of this run, to take back and to make again as long as nobody else changed their files."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._done: list[Step] = []
        self._undone: list[Step] = []

    @property
    def to_undo(self) -> str:
        """The words of the last step; empty where there is none."""
        return self._done[-1].words if self._done else ""

    @property
    def to_redo(self) -> str:
        return self._undone[-1].words if self._undone else ""

    def make(
        self, edits: Sequence[ValueEdit], seen: Mapping[str, str], new_files: Mapping[str, bytes] = NO_FILES
    ) -> None:
        """Raises as `write_edits` does."""
        self.add(write_edits(self._folder, edits, seen, new_files))

    def add(self, step: Step) -> None:
        """A step that was made elsewhere."""
        self._done.append(step)
        self._undone.clear()

    def is_last(self, step: Step) -> bool:
        """Whether it is the step that would be taken back next."""
        return bool(self._done) and self._done[-1] is step

    def undo(self) -> None:
        """Raises ChangedMeanwhileError, EditRefusedError or OSError with nothing written."""
        step = self._last(self._done)
        self._exchange(step.after, step.before)
        self._undone.append(self._done.pop())

    def redo(self) -> None:
        """Raises as `undo` does."""
        step = self._last(self._undone)
        self._exchange(step.before, step.after)
        self._done.append(self._undone.pop())

    @staticmethod
    def _last(steps: Sequence[Step]) -> Step:
        if not steps:
            raise EditRefusedError("there is no step left")
        return steps[-1]

    def _exchange(self, old: Contents, new: Contents) -> None:
        with one_at_a_time(self._folder):
            replace_files(self._folder, old, new)
