"""The new project folder: whole or not there."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.output.files.new_folder import scratch_in
from compliance.reading.project_folder import PROJECT_FILE
from compliance.start.interview.interview_question import Answers
from compliance.start.interview.trial_reading import write_files


def refusal(folder: Path, kept: Path) -> str:
    """Why no project can be begun there; empty where one can."""
    if folder.name in ("", ".."):
        return "give the new folder a name of its own"
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        return "there is something of that name already; give a new name"
    if folder.is_dir() and [one for one in folder.iterdir() if one != kept]:
        return "there is a folder of that name already, and it is not empty; give a new name"
    if not folder.absolute().parent.is_dir():
        return f"the folder {folder.absolute().parent} is not there"
    return ""


def is_project(folder: Path) -> bool:
    return (folder / PROJECT_FILE).is_file()


def write_project(folder: Path, answers: Answers, kept: Path, today: date) -> Checked:
    """Writes the project beside its place, checks it there, and gives it its name; then the kept answers go. Gives the
    check.

    Raises OSError, and ProblemsFound where a check would find a problem: nothing is written then.
    """
    with scratch_in(folder.absolute().parent) as scratch:
        made = scratch / folder.name
        made.mkdir()
        write_files(made, answers, today)
        checked = check_folder(made)
        beside = folder.absolute().parent / kept.name
        if folder.is_dir():
            if (folder / kept.name).exists():
                (folder / kept.name).replace(beside)  # where the next run finds them, should this one be killed here
            folder.rmdir()
        made.replace(folder)
    beside.unlink(missing_ok=True)
    return checked
