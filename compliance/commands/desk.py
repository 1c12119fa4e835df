"""The command `desk`: the project in the browser."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from compliance.commands.common.shared import put, stop
from compliance.exit_codes import ExitCode


def desk(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="The project folder, or the one to begin it in.")],
    no_open: Annotated[bool, typer.Option("--no-open", help="Print the address and open no browser.")] = False,
    port: Annotated[int, typer.Option(help="The port to listen at; 0 takes a free one.", min=0, max=65535)] = 0,
) -> None:
    """Opens the project in the browser of this machine: the answer, live, with plan and calculations. Ctrl-C ends it.

    In a folder that is not there yet, or is empty, a project is begun on the page. It listens on this machine alone,
    and nothing leaves it.

    Example: earthwall desk my_house
    """
    from compliance.start.project_files.created_folder import is_project, refusal
    from compliance.start.project_files.kept_answers import kept_file

    if not is_project(folder) and (why := refusal(folder, kept_file(folder))):
        raise stop(f"{folder}: it holds no project, and none can be begun there: {why}")
    from compliance.desk.serving import Desk

    try:
        opened = Desk(folder, port)
    except OSError as error:
        raise stop(f"port {port} cannot be listened at: {error.strerror or error}; --port 0 takes a free one") from None
    put(f"The desk of {folder} is open at\n  {opened.session.address}\n")
    put("The address is good once. Ctrl-C ends the desk.\n")
    if not no_open:
        import webbrowser

        webbrowser.open(opened.session.address)
    try:
        opened.serve()
    except KeyboardInterrupt:
        put("\n")
        raise typer.Exit(ExitCode.INTERRUPTED) from None
