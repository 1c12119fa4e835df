"""Changes that are tried: the check as it would be, kept for a while so that its plan can be drawn."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.desk.kept_check import KeptCheck
from compliance.editing.file_edits import ValueEdit, edit_tree

_MOST_KEPT = 4


class Trials:
    """The last few, by number."""

    def __init__(self, kept: KeptCheck) -> None:
        self._kept = kept
        self._count = 0
        self._checks: dict[int, Checked] = {}

    def make(self, edits: Sequence[ValueEdit]) -> tuple[int, Checked]:
        """Its number and the check with the edits; no file is touched. Raises ProblemsFound, LookupError and
        SpliceError where the edits lead nowhere."""
        checked = check_folder(self._kept.folder, edit=lambda tree: edit_tree(tree, edits))
        self._count += 1
        self._checks[self._count] = checked
        for old in sorted(self._checks)[:-_MOST_KEPT]:
            del self._checks[old]
        return self._count, checked

    def of(self, number: str) -> Checked | None:
        """The check of a trial; None where it is not kept any more."""
        return self._checks.get(int(number)) if number.isascii() and number.isdecimal() else None
