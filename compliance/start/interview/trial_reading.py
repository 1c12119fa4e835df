"""The project that the answers make so far, read as a check would read it."""

from __future__ import annotations

import tempfile
from datetime import date
from pathlib import Path

from compliance.model.project import Project
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.record import record
from compliance.refused import RefusedError
from compliance.start.interview.interview_question import NOTHING_THERE, Answers, Standing
from compliance.start.project_files.form_texts import project_files
from compliance.start.project_files.project_sections import project_tree


def write_files(folder: Path, answers: Answers, today: date) -> None:
    """Every file of the new project, in a folder that is there. Raises OSError."""
    for name, text in project_files(project_tree(answers, today)).items():
        _write(folder / name, text)


@record
class TrialReading:
    """What is wrong with the project as a whole, where each answer is right by itself, and the project where nothing
    is; None where it has nothing to read yet."""

    problems: tuple[Problem, ...] = ()
    project: Project | None = None


def trouble(answers: Answers, today: date, there: Standing = NOTHING_THERE) -> tuple[Problem, ...]:
    return trial_reading(answers, today, there).problems


def trial_reading(answers: Answers, today: date, there: Standing = NOTHING_THERE) -> TrialReading:
    with tempfile.TemporaryDirectory(prefix="earthwall-") as scratch:
        folder = Path(scratch) / "project"
        folder.mkdir()
        try:
            tree = project_tree(answers, today, there)
        except RefusedError as refused:
            return TrialReading((refused.at(Place("answers")),))
        if not tree.get("walls") and not tree.get("soils"):
            return TrialReading()
        if there.has_rules:
            tree["jurisdiction"] = {"name": "as adopted", "rule_sets": ["cob-practice"]}
        if there.mixes:
            stub = {mark: {"name": name, "parts": {"S1": "1"}} for mark, name in there.mixes}
            tree |= {"soils": {"S1": {"name": "soil"}}, "mixes": stub}
        for name, text in project_files(tree).items():
            _write(folder / name, text)
        try:
            return TrialReading(project=read_project(folder).project)
        except ProblemsFound as found:
            return TrialReading(tuple(found.problems))


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")
