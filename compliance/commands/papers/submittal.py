"""The command `submittal`: writes it and keeps a record of it."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.paper_writing import Force, Output, default_path, write_paper
from compliance.commands.common.shared import Folder, checked_folder, need_walls, stop, stop_with
from compliance.stages import Stage


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
    checked = checked_folder(folder, at_least=Stage.APPLICATION)
    need_walls(checked, folder, "a submittal")
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
    write_paper(
        checked,
        target,
        lambda made, path: write_submittal(made, path=path, previous=issue.previous, draft=draft, bound=bound),
        force,
    )
    try:
        keep(issue)
    except OSError as error:
        raise stop(f"{issue.path}: not kept as issued: {error}; take {target} for a draft") from None
    if issue.text is not None:
        typer.echo(f"Kept as issued: {issue.path}")
