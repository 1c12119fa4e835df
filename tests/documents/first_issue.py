"""Revision A of the example, as it was issued before revision B: made from the example by undoing what B mended.

    python -m tests.documents.first_issue

writes example_project/issued/A.json again. It is a record of its time: rule sets that change later make changes that
revision B tells of, and that is as it should be.
"""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from compliance.checking import check_folder
from compliance.editing.issuing import keep, plan_issue
from tests.conftest import CHECKOUT_EXAMPLE, EXAMPLE

NAME = "A.json"
_N4 = (
    "      N4: {kind: window, start: 4 ft, width: 3 ft, height: 3 ft, sill: 3 ft, "
    "sill_slope: 0.125, sill_barrier: yes,\n"
)
_LINTEL = "           lintel: {material: wood, width: 12 in, depth: 5 1/2 in, bearing: "
_UNDONE = (
    ("project.yaml", "  revision: B\n  date: 2026-09-14\n", "  revision: A\n  date: 2026-09-02\n"),
    ("walls.yaml", f"{_N4}{_LINTEL}12 in", f"{_N4}{_LINTEL}6 in"),
    ("project.yaml", "\n# What the official wrote on revision A", None),
)


def issue_first(folder: Path) -> Path:
    """A copy of the example in `folder` as it was under revision A, issued; gives the record."""
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("issued"))
    for name, now, then in _UNDONE:
        text = (folder / name).read_text(encoding="utf-8")
        assert text.count(now) == 1, f"{name} no longer holds what revision B mended: {now!r}"
        text = text[: text.index(now)] if then is None else text.replace(now, then)
        (folder / name).write_text(text, encoding="utf-8")
    keep(plan_issue(folder, check_folder(folder)))
    return folder / "issued" / NAME


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as scratch:
        record = issue_first(Path(scratch) / "example")
        (CHECKOUT_EXAMPLE / "issued").mkdir(exist_ok=True)
        shutil.copyfile(record, CHECKOUT_EXAMPLE / "issued" / NAME)
