"""The project that the answers make so far, read as a check would read it."""

from __future__ import annotations

import tempfile
from datetime import date
from pathlib import Path

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.problems import Place, ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.refused import RefusedError
from compliance.start.interview.first_questions import script
from compliance.start.interview.interview_question import NOTHING_THERE, Answers, Script, Standing, TrialReading
from compliance.start.project_files.form_texts import project_files
from compliance.start.project_files.project_sections import project_tree


def write_files(folder: Path, answers: Answers, today: date) -> None:
    """Every file of the new project, in a folder that is there. Raises OSError."""
    for name, text in project_files(project_tree(answers, today)).items():
        _write(folder / name, text)


def new_project(today: date, there: Standing = NOTHING_THERE) -> Script:
    """The interview about a building or the earth. Where the folder holds something already, its answer is not checked
    before it is written."""
    return Script(
        lambda answers: script(answers, there),
        read=lambda answers: trial_reading(answers, today, there),
        check=lambda answers: trial_check(answers, today) if there == NOTHING_THERE else None,
    )


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


def trial_check(answers: Answers, today: date) -> Checked | None:
    """The new project that the answers make so far, checked; None where they make none. Raises ProblemsFound."""
    with tempfile.TemporaryDirectory(prefix="earthwall-") as scratch:
        folder = Path(scratch) / "project"
        folder.mkdir()
        tree = project_tree(answers, today)
        if not tree.get("walls") and not tree.get("soils"):
            return None
        write_files(folder, answers, today)
        return check_folder(folder)


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")
