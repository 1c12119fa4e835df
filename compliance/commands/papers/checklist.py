"""The command `checklist`: a file for a spreadsheet, for other programs or for the phone."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from compliance.commands.common.paper_writing import Force, default_path, write_paper
from compliance.commands.common.shared import Folder, checked_folder
from compliance.stages import Stage


class Form(StrEnum):
    xlsx = "xlsx"
    csv = "csv"
    html = "html"


def checklist(
    folder: Folder,
    format: Annotated[
        Form, typer.Option(help="A workbook, comma-separated values, or one page for the phone.")
    ] = Form.xlsx,
    output: Annotated[
        Path | None, typer.Option(help="The file to write. Without it: out/ in the current folder.")
    ] = None,
    force: Force = False,
) -> None:
    """Writes the checklist by clause, a row for each finding, with walls, specimens and limits beside it.

    Example: earthwall checklist example_project --format html
    """
    checked = checked_folder(folder, at_least=Stage.APPLICATION)
    from compliance.output.checklist.checklist_files import write_checklist

    target = output or default_path(folder, "checklist").with_suffix(f".{format.value}")
    write_paper(checked, target, lambda made, path: write_checklist(made, path, format.value), force)
