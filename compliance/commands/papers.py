"""The commands that write a paper: each checks the folder, writes one PDF whole or not at all, and says where."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.progress import Progress
from compliance.commands.common.shared import Folder, checked_folder, stop, unknown_mark
from compliance.commands.common.shell_completion import complete_wall

if TYPE_CHECKING:
    from compliance.checked import Checked

Output = Annotated[Path | None, typer.Option(help="The PDF to write. Without it: out/ in the current folder.")]
Force = Annotated[bool, typer.Option("--force", help="Replace a file that this tool did not write.")]


def inspection(folder: Folder, output: Output = None, force: Force = False) -> None:
    """Writes the site cards: one for each hold and witness point that still has to be looked at, two to a sheet.

    Example: earthwall inspection example_project
    """
    checked = checked_folder(folder)
    from compliance.documents.inspection.site_cards import write_site_cards

    write_paper(checked, output or default_path(folder, "site-cards"), write_site_cards, force)


def counter(folder: Folder, output: Output = None, force: Force = False) -> None:
    """Writes the counter sheet: questions to the building official before the application, and limits to read.

    Example: earthwall counter example_project
    """
    checked = checked_folder(folder)
    from compliance.documents.counter.counter_sheet import write_counter_sheet
    from compliance.reading.reference_files.counter_reference import read_counter_questions

    questions = read_counter_questions()
    target = output or default_path(folder, "counter-sheet")
    write_paper(checked, target, lambda made, path: write_counter_sheet(made, questions, path), force)


def brief(
    folder: Folder,
    wall: Annotated[
        list[str] | None,
        typer.Option(metavar="WALL", help="Only this wall; may be repeated.", autocompletion=complete_wall),
    ] = None,
    output: Output = None,
    force: Force = False,
) -> None:
    """Writes the engineer's brief: two pages for each wall that a rule leaves to an engineer, and the building.

    Example: earthwall brief example_project --wall W3
    """
    checked = checked_folder(folder)
    for mark in wall or ():
        if mark not in checked.project.walls:
            raise stop(unknown_mark(mark, checked.project.walls))
    from compliance.documents.brief.engineer_brief import not_on_the_list, write_brief

    if said := not_on_the_list(checked, wall or ()):
        raise stop(said)
    target = output or default_path(folder, "-".join(["brief", *(wall or ())]))
    write_paper(checked, target, lambda made, path: write_brief(made, path, wall or ()), force)


def default_path(folder: Path, what: str) -> Path:
    """In `out/`, whatever stands in `what`: it may hold words of the project, such as its revision."""
    from compliance.output.files.write_targets import file_name

    return Path("out") / f"{file_name(f'{folder.resolve().name}-{what}')}.pdf"


def write_paper(checked: Checked, target: Path, write: Callable[[Checked, Path], None], force: bool = False) -> None:
    """Writes and says so; leaves with 2 and the reason where it cannot be written."""
    from compliance.documents.page.errors import DocumentError
    from compliance.output.files.write_targets import TargetError, allow_target

    try:
        allow_target(target, force, checked.inputs)
        target.parent.mkdir(parents=True, exist_ok=True)
        with Progress("writing the pages"):
            write(checked, target)
    except TargetError as error:
        raise stop(str(error)) from None
    except (DocumentError, OSError) as error:
        raise stop(f"{target}: not written: {error}") from None
    typer.echo(f"Wrote {target}")
