"""The command `desk`: the project in the browser."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from compliance.commands.common.shared import put, shown_in, stop
from compliance.exit_codes import ExitCode


def desk(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="The project folder, or the one to begin it in.")],
    no_open: Annotated[bool, typer.Option("--no-open", help="Print the address and open no browser.")] = False,
    port: Annotated[int, typer.Option(help="The port to listen at; 0 takes a free one.", min=0, max=65535)] = 0,
    phone: Annotated[
        bool, typer.Option("--phone", help="Let a phone on the same network read, add photos and record hold points.")
    ] = False,
    phone_address: Annotated[
        str | None,
        typer.Option(metavar="ADDRESS", help="With --phone: the address of this machine to listen at, of several."),
    ] = None,
) -> None:
    """Opens the project in the browser of this machine: the answer, live, with plan and calculations. Ctrl-C ends it.

    In a folder that is not there yet, or is empty, a project is begun on the page. It listens on this machine alone,
    and nothing leaves it. With --phone it listens on the local network too, for a phone that scans the code shown in
    the terminal and on a page of the desk. Nothing is encrypted there: use it on a network that you trust.

    Example: earthwall desk my_house
    """
    from compliance.start.project_files.created_folder import is_project, refusal
    from compliance.start.project_files.kept_answers import kept_file

    if not is_project(folder) and (why := refusal(folder, kept_file(folder))):
        raise stop(f"{folder}: it holds no project, and none can be begun there: {why}")
    if phone_address is not None and not phone:
        raise stop("--phone-address says where a phone comes in; write --phone too")
    from compliance.desk.phone.network_address import network_address, refuse_open_address
    from compliance.desk.serving import Desk
    from compliance.refused import RefusedError

    try:
        at = (refuse_open_address(phone_address) if phone_address else network_address()) if phone else None
        opened = Desk(folder, port, at)
    except RefusedError as refused:
        raise stop(f"{refused.wrong} ({refused.instead})") from None
    except OSError as error:
        where = f"port {port}" + (f" of 127.0.0.1 or {at}" if at else "")
        raise stop(f"{where} cannot be listened at: {error.strerror or error}; --port 0 takes a free one") from None
    put(f"The desk of {folder} is open at\n  {opened.session.address}\n")
    put("The address is good once. Ctrl-C ends the desk.\n")
    if opened.phone is not None:
        _show_phone(opened.phone.address)
    if not no_open:
        import webbrowser

        webbrowser.open(opened.session.address)
    try:
        opened.serve()
    except KeyboardInterrupt:
        put("\n")
        raise typer.Exit(ExitCode.INTERRUPTED) from None


def _show_phone(address: str) -> None:
    """Prints the warning, the code where a terminal can show it, and the address in it."""
    from compliance.desk.phone.access_page import WARNING
    from compliance.desk.phone.address_code import code_lines

    put(f"\nFor a phone on the same network, on the page Phone of the desk too:\n\n{WARNING}\n\n")
    lines = code_lines(address)
    if sys.stdout.isatty() and shown_in(lines[0], sys.stdout.encoding or "utf-8") == lines[0]:
        put("\n".join(lines) + "\n")
    put(f"  {address}\nIt is good once.\n")
