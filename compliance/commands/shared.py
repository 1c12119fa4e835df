"""What every command does alike: check a folder, stop with a message, print as UTF-8."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from compliance.checked import Checked
    from compliance.problems import ProblemsFound

Folder = Annotated[Path, typer.Argument(metavar="FOLDER", help="The project folder, the one with project.yaml.")]


def checked_folder(folder: Path) -> Checked:
    """The checked project; prints every problem and leaves with 2 when there is any."""
    from compliance.checking import check_folder
    from compliance.problems import ProblemsFound

    try:
        checked = check_folder(folder)
    except ProblemsFound as found:
        raise stop_with(found) from None
    for warning in checked.warnings:
        typer.echo(str(warning), err=True)
    return checked


def stop_with(found: ProblemsFound, end: str = "; nothing was written.") -> typer.Exit:
    """Prints every problem and how many there are; raise what this returns."""
    for problem in found.problems:
        typer.echo(str(problem), err=True)
    count = len(found.problems)
    typer.echo(f"{count} {'problem' if count == 1 else 'problems'}{end}", err=True)
    return typer.Exit(2)


def stop(message: str) -> typer.Exit:
    """Prints a message to standard error; raise what this returns."""
    typer.echo(message, err=True)
    return typer.Exit(2)


def put(text: str) -> None:
    """Writes UTF-8 wherever standard output leads."""
    sys.stdout.flush()
    sys.stdout.buffer.write(text.encode("utf-8"))
    sys.stdout.buffer.flush()
