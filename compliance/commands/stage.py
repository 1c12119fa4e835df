"""The command `stage`: where a project stands, and moving it on."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.shared import Folder, checked_folder, put, stop, stop_with, terminal_width
from compliance.exit_codes import exit_code_of_check
from compliance.stages import Stage


def stage(
    folder: Folder,
    stage: Annotated[
        Stage | None, typer.Argument(help="The stage the project comes to; without it none is changed.")
    ] = None,
) -> None:
    """Moves a project on to a stage and says what is still due there; without a stage, where it stands.

    Exit code 0 when everything due there meets, 1 when something does not, 2 when a file has an error.

    Example: earthwall stage example_project
    """
    if stage is not None:
        from compliance.editing.file_edits import EditRefusedError
        from compliance.editing.stage_change import write_stage
        from compliance.problems import ProblemsFound

        checked_folder(folder, stage)  # a folder with problems is left as it is
        try:
            step = write_stage(folder, stage)
        except ProblemsFound as found:
            raise stop_with(found) from None
        except (EditRefusedError, OSError) as error:
            raise stop(f"{error}; nothing was written") from None
        typer.echo(f"{folder / next(iter(step.after))}: {step.words}", err=True)
    checked = checked_folder(folder)
    from compliance.output.terminal.stage_table import stage_table

    put(stage_table(checked, terminal_width()))
    raise typer.Exit(exit_code_of_check(checked.all_meet))
