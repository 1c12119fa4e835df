"""Checking every project of a folder: a line of JSON for each."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import FrameType

import typer

from compliance.commands.common.progress import Progress
from compliance.commands.common.shared import put, stop
from compliance.exit_codes import ExitCode


def check_each(folder: Path) -> ExitCode:
    """Prints the line of each project in the order of their names, whichever is done first, and what they come to on
    standard error. Gives the worst of their codes. Stops where there is no project."""
    from compliance.checking_each import line_of, projects_in
    from compliance.output.terminal.check_each_lines import failed_line, tally_of
    from compliance.worker_pool import cores, in_order

    try:
        projects, none = projects_in(folder)
    except OSError as error:
        raise stop(f"{folder}: {error.strerror or error}") from None
    if not projects:
        raise stop(f"{folder}: no folder in it holds a project.yaml")
    codes: list[ExitCode] = []
    with Progress("checking") as bar:
        for project, found in zip(projects, in_order(line_of, projects, cores()), strict=True):
            line, code = found or (failed_line(project.name, "the process that checked it was ended"), ExitCode.ERROR)
            with _whole():
                put(line)
            codes.append(code)
            bar.at(len(codes), len(projects))
    typer.echo(tally_of(codes, none), err=True)
    return max(codes)


@contextmanager
def _whole() -> Iterator[None]:
    """Told to stop meanwhile, the tool stops after it: no line is left half written. Told twice, at once."""
    signals: list[int] = []
    before = {number: signal.getsignal(number) for number in (signal.SIGINT, signal.SIGTERM)}

    def wait(number: int, frame: FrameType | None) -> None:
        if signals:
            raise KeyboardInterrupt
        signals.append(number)

    for number in before:
        signal.signal(number, wait)
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
    if signals:
        signal.raise_signal(signals[0])
