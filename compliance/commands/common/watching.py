"""Checking again at every save: files are looked at now and then, what changed is said."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from compliance.commands.common.first_screen import first_screen
from compliance.exit_codes import ExitCode, exit_code_of_check
from compliance.files.file_states import Seen, changed, looked_at

if TYPE_CHECKING:
    from compliance.checked import Checked

EVERY = 0.5
"""Seconds between two looks."""


def watch_folder(
    folder: Path, put: Callable[[str], None], width: Callable[[], int],
    sleep: Callable[[float], None] = time.sleep,
) -> ExitCode:  # fmt: skip
    """Checks now and after every change until Ctrl-C. Gives the code to leave with, as the last check has it."""
    before: Checked | None = None
    seen: Seen | None = None
    code = ExitCode.OK
    put(f"Watching {folder}; Ctrl-C ends it.\n")
    try:
        while True:
            now = looked_at(folder)
            if now != seen:
                sleep(EVERY / 2)  # a save may still be under way
                settled = looked_at(folder)
                if settled != now:
                    continue
                if seen is not None:
                    put(f"\n{time.strftime('%H:%M:%S')} saved: {', '.join(changed(seen, now, folder))}\n")
                before, code = _check(folder, before, put, width())
                seen = now
            sleep(EVERY)
    except KeyboardInterrupt:
        put("\n")
        return code


def _check(
    folder: Path, before: Checked | None, put: Callable[[str], None], width: int
) -> tuple[Checked | None, ExitCode]:
    """The check now (None: a file is wrong, then the last sound one stays) and the code it would leave with."""
    from compliance.checking import check_folder
    from compliance.output.terminal.check_table import tally_line
    from compliance.output.terminal.problem_text import problems_text
    from compliance.problems import ProblemsFound
    from compliance.reading.source_lines import read_source_lines
    from compliance.units import Writer

    try:
        now = check_folder(folder)
    except ProblemsFound as found:
        put(problems_text(found.problems, width, read_source_lines))
        return before, ExitCode.ERROR
    if before is None or now.project.is_earth_only:
        put(first_screen(now, width))
    else:
        from compliance.output.terminal.remedy_text import difference_table
        from compliance.remedies.comparing import compared

        writer = Writer(now.project.project.units)
        put(
            difference_table(
                compared(before.findings, now.findings), changes=[], writer=writer, width=width, all_lines=False
            )
        )
        put(tally_line(now) + "\n")
    return now, exit_code_of_check(now.all_meet)
