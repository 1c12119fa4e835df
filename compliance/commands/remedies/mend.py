"""The command `mend`: the nearest changes that meet."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.progress import Progress
from compliance.commands.common.remedy_block import mended
from compliance.commands.common.shared import Folder, checked_folder, put, stop, terminal_width, unknown_mark
from compliance.commands.common.shell_completion import complete_subject


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
    from compliance.remedies import tester_for

    tester = tester_for(checked)
    wanted = [
        one for one in checked.findings
        if one.outcome in (Outcome.REVISE, Outcome.ENGINEER) and subject in (None, one.subject, one.wall)
    ]  # fmt: skip
    blocks = []
    with Progress("looking for changes") as bar:
        for number, one in enumerate(sorted(wanted, key=lambda one: one.outcome.rank)):
            bar.at(number, len(wanted))
            blocks.append(mended(tester, one, folder))
    put("\n".join(blocks) + (f"\n{caution(terminal_width())}" if blocks else "nothing to revise\n"))
