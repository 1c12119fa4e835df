"""The command `earth`."""

from __future__ import annotations

from compliance.commands.common.paper_writing import Force, Output, default_path, write_paper
from compliance.commands.common.shared import Folder, checked_folder, stop


def earth(folder: Folder, output: Output = None, force: Force = False) -> None:
    """Writes a short report of the soils, trial bricks, mixes and tests, with their plots; no walls are needed.

    Example: earthwall earth example_project
    """
    checked = checked_folder(folder)
    project = checked.project
    if not (project.soils or project.trials or project.mixes or project.test_sets):
        raise stop("nothing of the earth is described: add soils:, trials:, mixes: or test_sets:; nothing was written")
    from compliance.documents.earth.earth_report import write_earth_report

    write_paper(checked, output or default_path(folder, "soils-and-mixes"), write_earth_report, force)
