"""The command that blends: a mix beside the mixes that practice aims for, and what its walls take."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Annotated

import typer

from compliance.commands.common.shared import Folder, put, stop, stop_with


def blend(
    folder: Folder,
    mix: Annotated[
        str | None,
        typer.Argument(
            metavar="MIX", help="The mark of a mix or trial brick. Without it: every mix, or the best brick."
        ),
    ] = None,
    target: Annotated[
        str | None,
        typer.Option(help="The mix aimed for, by its name in the reference. Without it: the first that fits."),
    ] = None,
) -> None:
    """Prints a batch of a mix in buckets, what its parts become, what would come nearer to its target,
    and what its walls take.

    Example: earthwall blend example_project M1
    """
    from compliance.commands.common.blends import BlendError, blend_pages
    from compliance.problems import ProblemsFound

    try:
        text = blend_pages(Path(folder), mix, target, shutil.get_terminal_size((100, 24)).columns)
    except ProblemsFound as found:
        raise stop_with(found) from None
    except BlendError as error:
        raise stop(str(error)) from None
    put(text)
