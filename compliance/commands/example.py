"""The command `example`: the example project in a new folder."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from compliance.commands.common.shared import stop


def example(
    target: Annotated[Path, typer.Argument(metavar="TARGET", help="A folder that is not there yet.")],
) -> None:
    """Copies the example project, an invented building, to a new folder.

    Example: earthwall example my_walls
    """
    from compliance.output.files.new_folder import copy_example

    try:
        copy_example(target)
    except OSError as error:
        raise stop(f"{target}: not copied: {error.strerror or error}") from None
    typer.echo(f"Copied the example to {target}. Try: earthwall check {target}")
