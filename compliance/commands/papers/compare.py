"""The command `compare`: two issued revisions."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.shared import Folder, checked_folder, put, stop, stop_with, terminal_width
from compliance.stages import Stage

if TYPE_CHECKING:
    from compliance.model.issued import FindingsRecord


def compare(
    folder: Folder,
    one: Annotated[str, typer.Argument(metavar="REV_A", help="A revision that was issued.")],
    other: Annotated[
        str | None,
        typer.Argument(metavar="REV_B", help="Another. Without it: the project as it stands."),
    ] = None,
    walls: Annotated[bool, typer.Option("--walls", help="Each finding that changed, by wall.")] = False,
) -> None:
    """Prints which inputs and limits changed between two revisions, then what that did, a line for each rule.

    Example: earthwall compare example_project A
    """
    from compliance.report.revisions.revision_changes import changes
    from compliance.report.revisions.revision_words import revision_text

    before = _issued(folder, one)
    after = _as_it_stands(folder) if other is None else _issued(folder, other)
    put(revision_text(changes(before, after), terminal_width(), walls))


def _issued(folder: Path, revision: str) -> FindingsRecord:
    from compliance.problems import ProblemsFound
    from compliance.reading.issued_records import read_issued

    try:
        records = {record.project.revision: record for record in read_issued(folder)}
    except ProblemsFound as found:
        raise stop_with(found, end="") from None
    if revision not in records:
        known = f"issued: {', '.join(records)}" if records else "nothing was issued"
        raise stop(f"{folder} has no record of revision {revision!r} ({known})")
    return records[revision]


def _as_it_stands(folder: Path) -> FindingsRecord:
    checked = checked_folder(folder, at_least=Stage.APPLICATION)
    from compliance.report.revisions.findings_data import as_record

    return as_record(checked)
