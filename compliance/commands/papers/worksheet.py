"""The command `worksheet`: limits to read at the code counter."""

from __future__ import annotations

from compliance.commands.common.paper_writing import Force, Output, default_path, write_paper
from compliance.commands.common.shared import Folder, checked_folder
from compliance.stages import Stage


def worksheet(folder: Folder, output: Output = None, force: Force = False) -> None:
    """Writes the limits the findings rest on, least known first, to fill in where the adopted code lies open. Filled in
    on a screen and saved, `confirm --from` reads it back.

    Example: earthwall worksheet example_project
    """
    checked = checked_folder(folder, at_least=Stage.APPLICATION)
    from compliance.documents.counter.limits_worksheet import write_worksheet

    write_paper(
        checked,
        output or default_path(folder, "worksheet"),
        write_worksheet,
        force,
    )
