"""The command `brief`."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.paper_writing import Force, Output, default_path, write_paper
from compliance.commands.common.shared import Folder, checked_folder, need_walls, stop, unknown_mark
from compliance.commands.common.shell_completion import complete_wall
from compliance.stages import Stage


def brief(
    folder: Folder,
    wall: Annotated[
        list[str] | None,
        typer.Option(metavar="WALL", help="Only this wall; may be repeated.", autocompletion=complete_wall),
    ] = None,
    output: Output = None,
    force: Force = False,
) -> None:
    """Writes the engineer's brief: each wall that a rule leaves to an engineer, with
    its loads, earth and calculations, then building, site and coefficients.

    Example: earthwall brief example_project --wall W3
    """
    checked = checked_folder(folder, at_least=Stage.APPLICATION)
    need_walls(checked, folder, "an engineer's brief")
    for mark in wall or ():
        if mark not in checked.project.walls:
            raise stop(unknown_mark(mark, checked.project.walls))
    from compliance.documents.brief.engineer_brief import not_on_the_list, write_brief

    if wording := not_on_the_list(checked, wall or ()):
        raise stop(wording)
    target = output or default_path(folder, "-".join(["brief", *(wall or ())]))
    write_paper(checked, target, lambda made, path: write_brief(made, path, wall or ()), force)
