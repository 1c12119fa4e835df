"""The command `example`: one of the example projects in a new folder."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from compliance.commands.common.shared import stop


def example(
    target: Annotated[Path, typer.Argument(metavar="TARGET", help="A folder that is not there yet.")],
    is_round: Annotated[
        bool, typer.Option("--round", help="The round room, whose code is not adopted, instead of the house.")
    ] = False,
) -> None:
    """Copies an example project, an invented building, to a new folder.

    Example: earthwall example my_walls --round
    """
    from compliance.output.files.new_folder import copy_example

    try:
        copy_example(target, "example_round" if is_round else "example_project")
    except OSError as error:
        raise stop(f"{target}: not copied: {error.strerror or error}") from None
    typer.echo(f"Copied the example to {target}. Try: earthwall check {target}")
