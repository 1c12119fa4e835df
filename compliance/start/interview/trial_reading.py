"""The project that the answers make so far, read as a check would read it."""

from __future__ import annotations

import tempfile
from datetime import date
from pathlib import Path

from compliance.problems import Problem, ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.start.interview.interview_question import Answers
from compliance.start.project_files.form_texts import project_files
from compliance.start.project_files.project_sections import project_tree


def write_files(folder: Path, answers: Answers, today: date) -> None:
    """Every file of the new project, in a folder that is there. Raises OSError."""
    for name, text in project_files(project_tree(answers, today)).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")


def trouble(answers: Answers, today: date) -> list[Problem]:
    """What is wrong with the building as a whole, where each answer is right by itself."""
    with tempfile.TemporaryDirectory(prefix="earthwall-") as scratch:
        folder = Path(scratch) / "project"
        folder.mkdir()
        tree = project_tree(answers, today)
        if not tree["walls"]:
            return []
        write_files(folder, answers, today)
        try:
            read_project(folder)
        except ProblemsFound as found:
            return found.problems
    return []
