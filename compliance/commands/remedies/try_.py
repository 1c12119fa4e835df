"""The command `try`: what would change if some values were others."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.progress import Progress
from compliance.commands.common.shared import Folder, checked_folder, put, stop_with, terminal_width
from compliance.exit_codes import ExitCode


def try_(
    folder: Folder,
    changes: Annotated[list[str], typer.Argument(metavar="FIELD=VALUE...", help='Such as W3.thickness="20 in".')],
    all_lines: Annotated[bool, typer.Option("--all", help="Also findings that only change in number.")] = False,
) -> None:
    """Says which findings would change if some values were others. No file is touched.

    Exit code 0 when nothing gets worse, 1 when something does, 2 when a value or a file has an error.

    Example: earthwall try example_project W3.thickness="20 in" W3.height="9 ft"
    """
    checked = checked_folder(folder)
    from compliance.checking import check_folder
    from compliance.editing.assignments import Assignment, at_assignment, edit_of, read_assignments
    from compliance.output.terminal.remedy_text import difference_table
    from compliance.problems import ProblemsFound
    from compliance.remedies.comparing import compared
    from compliance.units import Writer

    assignments: list[Assignment] = []
    try:
        assignments = read_assignments(changes)
        with Progress("checking the change") as bar:
            then = check_folder(folder, edit_of(assignments), bar.at)
    except ProblemsFound as found:
        raise stop_with(ProblemsFound(at_assignment(one, assignments) for one in found.problems), end="") from None
    differences = compared(checked.findings, then.findings)
    writer = Writer(then.project.project.units)
    put(difference_table(differences, changes=changes, writer=writer, width=terminal_width(), all_lines=all_lines))
    raise typer.Exit(ExitCode.NOT_MET if any(one.worse for one in differences) else ExitCode.OK)
