"""The command `range`: how far each dimension of a wall may go."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.progress import Progress
from compliance.commands.common.shared import Folder, checked_folder, put, stop, terminal_width, unknown_mark
from compliance.commands.common.shell_completion import complete_wall


def range_(
    folder: Folder,
    wall: Annotated[
        str, typer.Argument(metavar="WALL", help="The mark of a wall, such as W3.", autocompletion=complete_wall)
    ],
) -> None:
    """Says how far height, thickness and length of a wall may go before a finding of the wall gets worse.

    Example: earthwall range example_project W3
    """
    checked = checked_folder(folder)
    if wall not in checked.project.walls:
        raise stop(unknown_mark(wall, checked.project.walls))
    from compliance.output.terminal.remedy_text import range_table
    from compliance.remedies import free_ranges, tester_for

    tester = tester_for(checked)
    with Progress("trying every step"):
        ranges = free_ranges(tester, wall)
    put(range_table(wall, ranges, tester.writer, terminal_width()))
