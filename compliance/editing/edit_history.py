"""Steps of editing, to take back and to make again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from compliance.editing.file_edits import (
    ChangedMeanwhileError,
    EditRefusedError,
    Step,
    ValueEdit,
    path_of,
    write_edits,
    write_files,
)
from compliance.output.files.folder_lock import one_at_a_time


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

    def make(self, edits: Sequence[ValueEdit], seen: Mapping[str, str]) -> None:
        """Raises as `write_edits` does."""
        self.keep(write_edits(self._folder, edits, seen))

    def keep(self, step: Step) -> None:
        """A step that was made already."""
        self._done.append(step)
        self._undone.clear()

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

    def _exchange(self, old: Mapping[str, bytes], new: Mapping[str, bytes]) -> None:
        with one_at_a_time(self._folder):
            for name, data in old.items():
                if path_of(self._folder, name).read_bytes() != data:
                    raise ChangedMeanwhileError(f"{name} was changed since; this step is left as it is")
            write_files(self._folder, new)
