"""The command `lab-request`."""

from __future__ import annotations

from compliance.commands.common.paper_writing import Force, Output, default_path, write_paper
from compliance.commands.common.shared import Folder, checked_folder
from compliance.stages import Stage


def lab_request(folder: Folder, output: Output = None, force: Force = False) -> None:
    """Writes what to hand to the laboratory: specimens, tests asked for, a table to fill in, labels to tie on.

    Example: earthwall lab-request my_house
    """
    checked = checked_folder(folder, at_least=Stage.APPLICATION)
    from compliance.documents.lab_request.request import write_lab_request

    write_paper(checked, output or default_path(folder, "lab-request"), write_lab_request, force)
