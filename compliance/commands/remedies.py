"""What to change: remedies for what does not meet, what-ifs, and how far each dimension of a wall may go."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.progress import Progress
from compliance.commands.common.shared import Folder, checked_folder, put, stop, stop_with, terminal_width, unknown_mark
from compliance.commands.common.shell_completion import complete_subject, complete_wall

if TYPE_CHECKING:
    from compliance.findings import Finding
    from compliance.remedies import Bench


def mend(
    folder: Folder,
    subject: Annotated[
        str | None,
        typer.Argument(metavar="SUBJECT", help="A mark, such as W3 or W3.P2: all without it.",
                       autocompletion=complete_subject),
    ] = None,
) -> None:  # fmt: skip
    """Looks for the nearest change that meets each finding to revise or for an engineer, and says what else it does.

    Example: earthwall mend example_project W3
    """
    checked = checked_folder(folder)
    if subject is not None and not any(subject in (one.subject, one.wall) for one in checked.findings):
        raise stop(unknown_mark(subject, (one.subject for one in checked.findings)))
    from compliance.findings import Outcome
    from compliance.output.terminal.remedy_text import caution
    from compliance.remedies import bench_for

    bench = bench_for(checked)
    wanted = [
        one for one in checked.findings
        if one.outcome in (Outcome.REVISE, Outcome.ENGINEER) and subject in (None, one.subject, one.wall)
    ]  # fmt: skip
    blocks = []
    with Progress("looking for changes") as bar:
        for number, one in enumerate(sorted(wanted, key=lambda one: one.outcome.rank)):
            bar.at(number, len(wanted))
            blocks.append(mended(bench, one, folder))
    put("\n".join(blocks) + (f"\n{caution(terminal_width())}" if blocks else "nothing to revise\n"))


def mended(bench: Bench, finding: Finding, folder: Path) -> str:
    """One finding with its remedies, as text."""
    from compliance.output.terminal.remedy_text import remedy_lines
    from compliance.remedies import remedies

    lines = remedy_lines(bench, finding, remedies(bench, finding), folder.as_posix(), terminal_width())
    return "\n".join(lines) + "\n"


def try_out(
    folder: Folder,
    changes: Annotated[list[str], typer.Argument(metavar="FIELD=VALUE...", help='Such as W3.thickness="20 in".')],
    all_lines: Annotated[bool, typer.Option("--all", help="Also findings that only change in number.")] = False,
) -> None:
    """Says which findings would change if some values were others. No file is touched.

    Exit code 0 when nothing gets worse, 1 when something does, 2 when a value or a file has an error.

    Example: earthwall try example_project W3.thickness="20 in" W3.height="9 ft"
    """
    checked = checked_folder(folder)
    from compliance.checking import check_folder
    from compliance.editing.assignments import Assignment, edit_of, read_assignments, told
    from compliance.output.terminal.remedy_text import difference_table
    from compliance.problems import ProblemsFound
    from compliance.remedies.comparing import compared
    from compliance.units import Writer

    assignments: list[Assignment] = []
    try:
        assignments = read_assignments(changes)
        with Progress("checking the change") as bar:
            then = check_folder(folder, edit_of(assignments), bar.at)
    except ProblemsFound as found:
        raise stop_with(ProblemsFound(told(one, assignments) for one in found.problems), end="") from None
    differences = compared(checked.findings, then.findings)
    writer = Writer(then.project.project.units)
    put(difference_table(differences, changes, writer, terminal_width(), all_lines))
    raise typer.Exit(1 if any(one.worse for one in differences) else 0)


def free_range(
    folder: Folder,
    wall: Annotated[
        str, typer.Argument(metavar="WALL", help="The mark of a wall, such as W3.", autocompletion=complete_wall)
    ],
) -> None:
    """Says how far height, thickness and length of a wall may go before a finding of the wall gets worse.

    Example: earthwall range example_project W3
    """
    checked = checked_folder(folder)
    if wall not in checked.project.walls:
        raise stop(unknown_mark(wall, checked.project.walls))
    from compliance.output.terminal.remedy_text import range_table
    from compliance.remedies import bench_for, free_ranges

    bench = bench_for(checked)
    with Progress("trying every step"):
        ranges = free_ranges(bench, wall)
    put(range_table(wall, ranges, bench.writer, terminal_width()))
