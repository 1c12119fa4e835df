"""The projects of a folder, and the check of one of them as a line of JSON."""

from __future__ import annotations

from pathlib import Path

from compliance.checking import check_folder
from compliance.exit_codes import ExitCode, exit_code_of_check
from compliance.output.terminal.check_each_lines import checked_line, failed_line, problems_line
from compliance.problems import ProblemsFound
from compliance.reading.project_folder import PROJECT_FILE


def projects_in(folder: Path) -> tuple[list[Path], list[str]]:
    """The folders right below `folder` that hold a project, and the names of those that hold none; both sorted by name,
    hidden ones left out. Raises OSError."""
    below = sorted((one for one in folder.iterdir() if one.is_dir()), key=lambda one: one.name)
    seen = [one for one in below if not one.name.startswith(".")]
    projects = [one for one in seen if (one / PROJECT_FILE).exists()]
    return projects, [one.name for one in seen if one not in set(projects)]


def line_of(folder: Path) -> tuple[str, ExitCode]:
    """The line of one project, and the code that a check of it alone leaves with. A project that the check itself fails
    on is told as such, so that it never stops the others."""
    try:
        checked = check_folder(folder)
        return checked_line(folder.name, checked), exit_code_of_check(checked.all_meet)
    except ProblemsFound as found:
        return problems_line(folder.name, found.problems), ExitCode.ERROR
    except Exception as error:
        return failed_line(folder.name, f"{type(error).__name__}: {error}"), ExitCode.ERROR
