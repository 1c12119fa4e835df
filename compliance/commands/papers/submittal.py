"""The command `submittal`: writes its parts and keeps a record of them."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer

from compliance.commands.common.paper_writing import Force, default_path, write_paper, write_papers
from compliance.commands.common.shared import Folder, checked_folder, need_walls, stop, stop_with
from compliance.stages import Stage

Output = Annotated[
    Path | None,
    typer.Option(help="The folder to write, or, ending in .pdf, one file. Without it: out/ in the current folder."),
]
PartName = Literal["papers", "drawings", "calculations"]


def submittal(
    folder: Folder,
    output: Output = None,
    part: Annotated[PartName | None, typer.Option("--part", help="Write this part only, as one PDF.")] = None,
    one_file: Annotated[bool, typer.Option("--one-file", help="Bind all parts in one PDF.")] = False,
    draft: Annotated[bool, typer.Option("--draft", help="Mark it as a draft and keep no record of it.")] = False,
    reissue: Annotated[
        bool, typer.Option("--reissue", help="Replace the record of this revision where its input has changed.")
    ] = False,
    force: Force = False,
) -> None:
    """Writes the submittal for the building official: papers, drawings and calculations, a PDF each, of one revision.

    What was issued is kept in the project's issued/. A revision that was issued is not issued again with other input:
    give the project its next revision. One part alone is a copy for reading and keeps no record.

    Example: earthwall submittal example_project --draft
    """
    if part and one_file:
        raise stop("--part writes one part and --one-file all of them; give one of the two")
    checked = checked_folder(folder, at_least=Stage.APPLICATION)
    need_walls(checked, folder, "a submittal")
    from compliance.commands.common.attachment_binding import read_attachments
    from compliance.documents.submittal.bundle import build_parts, write_part, write_submittal
    from compliance.editing.issuing import IssueError, keep, plan_issue
    from compliance.problems import ProblemsFound

    try:
        bound = read_attachments(folder, checked.project)
        issue = plan_issue(folder, checked, draft, reissue)
    except ProblemsFound as found:
        raise stop_with(found) from None
    except (IssueError, OSError) as error:
        raise stop(f"{error}; nothing was written") from None
    name = f"submittal-{checked.project.project.revision}" + ("-draft" if draft else "")
    if part:
        target = output or default_path(folder, f"{name}-{part}")
        write_paper(
            checked,
            target,
            lambda made, path: write_part(made, path, part, previous=issue.previous, draft=draft, bound=bound),
            force,
        )
        return
    if one_file or (output is not None and output.suffix.lower() == ".pdf"):
        target = output or default_path(folder, name)
        write_paper(
            checked,
            target,
            lambda made, path: write_submittal(made, path=path, previous=issue.previous, draft=draft, bound=bound),
            force,
        )
    else:
        target = output or default_path(folder, name).with_suffix("")
        write_papers(
            checked, target, lambda made: build_parts(made, previous=issue.previous, draft=draft, bound=bound), force
        )
    try:
        keep(issue)
    except OSError as error:
        raise stop(f"{issue.path}: not kept as issued: {error}; take {target} for a draft") from None
    if issue.text is not None:
        typer.echo(f"Kept as issued: {issue.path}")
