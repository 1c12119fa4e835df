"""The command `plan`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from compliance.commands.common.paper_writing import Force, default_path, write_paper
from compliance.commands.common.shared import Folder, checked_folder, need_walls, stop, unknown_mark
from compliance.commands.common.shell_completion import complete_wall


def plan(
    folder: Folder,
    wall: Annotated[
        str | None, typer.Argument(metavar="[WALL]", help="Its elevation.", autocompletion=complete_wall)
    ] = None,
    section: Annotated[bool, typer.Option("--section", help="The section of the wall.")] = False,
    output: Annotated[
        Path | None,
        typer.Option(help="The file to write, ending in .svg or .pdf. Without it: out/ in the current folder."),
    ] = None,
    force: Force = False,
) -> None:
    """Writes the plan alone, or a wall's elevation or section, as a picture (SVG) or a PDF.

    Example: earthwall plan example_project W3 --section --output w3.svg
    """
    if section and wall is None:
        raise stop("--section needs a wall: earthwall plan FOLDER WALL --section")
    what = "-".join(["plan", *([wall] if wall else []), *(["section"] * section)])
    target = output or default_path(folder, what).with_suffix(".svg")
    if target.suffix.lower() not in (".svg", ".pdf"):
        raise stop(f"{target}: write a name that ends in .svg or .pdf")
    checked = checked_folder(folder)
    need_walls(checked, folder, "a plan")
    if wall is not None and wall not in checked.project.walls:
        raise stop(unknown_mark(wall, checked.project.walls))
    if not checked.facts.views or (wall is not None and wall not in checked.facts.views):
        raise stop(f"{f'{wall} has' if wall else 'no wall has'} no place in the plan: write its run")
    from compliance.documents.lone_drawings.lone_drawing import View, write_lone_drawing

    view: View = "section" if section else "elevation" if wall else "plan"
    write_paper(checked, target, lambda made, path: write_lone_drawing(made, view, wall or "", path), force)
