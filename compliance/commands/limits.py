"""The command `limits`: those that a project's findings rest on."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.shared import Folder, checked_folder, put


def limits(
    folder: Folder,
    all_limits: Annotated[bool, typer.Option("--all", help="Also those a named person has confirmed.")] = False,
) -> None:
    """Lists the limits this project's findings rest on, least known first.

    Example: earthwall limits example_project
    """
    checked = checked_folder(folder)
    from compliance.report.limits.limit_list import limit_list

    put(limit_list(checked, all_limits))
