"""The command `limits`: those that a project's findings rest on."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer

from compliance.commands.common.shared import Folder, checked_folder, put


class SheetFormat(StrEnum):
    table = "table"
    csv = "csv"


def limits(
    folder: Folder,
    all_limits: Annotated[bool, typer.Option("--all", help="Also those a named person has confirmed.")] = False,
    format: Annotated[
        SheetFormat, typer.Option(help="How to print them; csv is the sheet that confirm --from takes, filled in.")
    ] = SheetFormat.table,
) -> None:
    """Lists the limits this project's findings rest on, least known first.

    Example: earthwall limits example_project
    """
    checked = checked_folder(folder)
    if format is SheetFormat.csv:
        from compliance.report.limits.limit_sheet import limit_sheet

        put(limit_sheet(checked, all_limits))
        return
    from compliance.report.limits.limit_list import limit_list

    put(limit_list(checked, all_limits))
