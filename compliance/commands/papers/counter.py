"""The command `counter`."""

from __future__ import annotations

from compliance.commands.common.paper_writing import Force, Output, default_path, write_paper
from compliance.commands.common.shared import Folder, checked_folder, need_walls
from compliance.stages import Stage


def counter(folder: Folder, output: Output = None, force: Force = False) -> None:
    """Writes the counter sheet: questions to the building official before the application, and limits to read.

    Example: earthwall counter example_project
    """
    checked = checked_folder(folder, at_least=Stage.APPLICATION)
    need_walls(checked, folder, "the pre-application meeting")
    from compliance.documents.counter.counter_sheet import write_counter_sheet
    from compliance.reading.reference_files.counter_reference import read_counter_questions

    questions = read_counter_questions()
    target = output or default_path(folder, "counter-sheet")
    write_paper(checked, target, lambda made, path: write_counter_sheet(made, questions, path), force)
