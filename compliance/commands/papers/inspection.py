"""The command `inspection`."""

from __future__ import annotations

from compliance.commands.common.paper_writing import Force, Output, default_path, write_paper
from compliance.commands.common.shared import Folder, checked_folder, need_walls
from compliance.stages import Stage


def inspection(folder: Folder, output: Output = None, force: Force = False) -> None:
    """Writes the site cards: one for each hold and witness point that still has to be looked at, two to a sheet.

    Example: earthwall inspection example_project
    """
    checked = checked_folder(folder, at_least=Stage.APPLICATION)
    need_walls(checked, folder, "an inspection plan")
    from compliance.documents.inspection.site_cards import write_site_cards

    write_paper(checked, output or default_path(folder, "site-cards"), write_site_cards, force)
