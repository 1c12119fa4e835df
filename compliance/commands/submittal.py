"""The submittal and what was issued before it: writing it, keeping a record of it, comparing two revisions."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.shared import Folder, checked_folder, put, stop, stop_with, terminal_width
from compliance.commands.papers import Force, Output, default_path, write_paper

if TYPE_CHECKING:
    from compliance.model.issued import FindingsRecord


def submittal(
    folder: Folder,
    output: Output = None,
    draft: Annotated[bool, typer.Option("--draft", help="Mark it as a draft and keep no record of it.")] = False,
    reissue: Annotated[
        bool, typer.Option("--reissue", help="Replace the record of this revision where its input has changed.")
    ] = False,
    force: Force = False,
) -> None:
    """Writes the submittal for the building official as PDF, and keeps what was issued in the project's issued/.

    A revision that was issued is not issued again with other input: give the project its next revision.

    Example: earthwall submittal example_project --draft
    """
    checked = checked_folder(folder)
    from compliance.commands.common.attachment_binding import read_attachments
    from compliance.documents.submittal.bundle import write_submittal
    from compliance.editing.issuing import IssueError, keep, plan_issue
    from compliance.problems import ProblemsFound

    try:
        bound = read_attachments(folder, checked.project)
        issue = plan_issue(folder, checked, draft, reissue)
    except ProblemsFound as found:
        raise stop_with(found) from None
    except (IssueError, OSError) as error:
        raise stop(f"{error}; nothing was written") from None
    what = f"submittal-{checked.project.project.revision}" + ("-draft" if draft else "")
    target = output or default_path(folder, what)
    write_paper(checked, target, lambda made, path: write_submittal(made, path, issue.previous, draft, bound), force)
    try:
        keep(issue)
    except OSError as error:
        raise stop(f"{issue.path}: not kept as issued: {error}; take {target} for a draft") from None
    if issue.text is not None:
        typer.echo(f"Kept as issued: {issue.path}")


def compare(
    folder: Folder,
    one: Annotated[str, typer.Argument(metavar="REV_A", help="A revision that was issued.")],
    other: Annotated[
        str | None,
        typer.Argument(metavar="REV_B", help="Another. Without it: the project as it stands."),
    ] = None,
) -> None:
    """Prints what changed between two revisions, wall by wall and limit by limit.

    Example: earthwall compare example_project A
    """
    from compliance.report.revisions.revision_changes import changes
    from compliance.report.revisions.revision_words import revision_text

    before = _issued(folder, one)
    after = _as_it_stands(folder) if other is None else _issued(folder, other)
    put(revision_text(changes(before, after), terminal_width()))


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
    checked = checked_folder(folder)
    from compliance.report.revisions.findings_data import as_record

    return as_record(checked)
