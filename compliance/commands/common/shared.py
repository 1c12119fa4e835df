"""What every command does alike: check a folder, stop with a message, print as UTF-8."""

from __future__ import annotations

import gc
import shutil
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.progress import Progress
from compliance.exit_codes import ExitCode
from compliance.stages import Stage

if TYPE_CHECKING:
    from compliance.checked import Checked
    from compliance.problems import Problem, ProblemsFound

_NARROWEST = 40

Folder = Annotated[Path, typer.Argument(metavar="FOLDER", help="The project folder, the one with project.yaml.")]


def checked_folder(folder: Path, stage: Stage | None = None, at_least: Stage = Stage.EARTH) -> Checked:
    """The checked project, asked at a stage as `check_folder` has it; prints every problem, and exits with an error
    where there is any."""
    from compliance.checking import check_folder
    from compliance.problems import ProblemsFound

    # Nearly all that a check makes lives until the command ends: looked through for cycles again and again, it would
    # cost a large building more for each wall than a small one.
    gc.disable()
    try:
        with Progress("checking") as bar:
            checked = check_folder(folder, progress=bar.at, stage=stage, at_least=at_least)
    except ProblemsFound as found:
        raise stop_with(found) from None
    finally:
        gc.freeze()
        gc.enable()
    if checked.warnings:
        _say_problems(checked.warnings)
    return checked


def stop_with(found: ProblemsFound, end: str = "; nothing was written.") -> typer.Exit:
    """Prints every problem and how many there are; raise what this returns."""
    _say_problems(found.problems)
    count = len(found.problems)
    typer.echo(f"{count} {'problem' if count == 1 else 'problems'}{end}", err=True)
    typer.echo(f"More on one: earthwall problem {found.problems[0].code}", err=True)
    return typer.Exit(ExitCode.ERROR)


def _say_problems(problems: Iterable[Problem]) -> None:
    from compliance.output.terminal.problem_text import problems_text
    from compliance.reading.source_lines import read_source_lines

    typer.echo(problems_text(problems, terminal_width(), read_source_lines), err=True, nl=False)


def stop(message: str) -> typer.Exit:
    """Prints a message to standard error; raise what this returns."""
    typer.echo(message, err=True)
    return typer.Exit(ExitCode.ERROR)


def need_walls(checked: Checked, folder: Path, what: str) -> None:
    """Exits with what to do instead where a project has no building to write `what` about."""
    if checked.project.is_earth_only:
        raise stop(
            f"{folder}: no walls are described, so there is no building for {what}; nothing was written.\n"
            f"Report of soils, trial bricks and mixes: earthwall earth {folder}\n"
            f"To go on with the building: earthwall start {folder}"
        )


def unknown_mark(mark: str, known: Iterable[str]) -> str:
    """What to say of a mark that nothing bears."""
    from compliance.refused import nearest

    marks = list(dict.fromkeys(known))
    near = nearest(mark, marks)
    listed = ", ".join(marks[:30]) + (" ..." if len(marks) > 30 else "")
    return f"nothing is called {mark!r} ({f'did you mean {near}?' if near else f'known: {listed}'})"


def terminal_width() -> int:
    """Columns of the terminal; 100 where there is none, and never fewer than lines can be broken to."""
    return max(_NARROWEST, shutil.get_terminal_size((100, 24)).columns)


# For terminals whose encoding lacks a character: plain ones that say the same.
_PLAINER = str.maketrans({
    "×": "x", "·": ".", "≤": "<=", "≥": ">=", "≠": "!=", "−": "-", "–": "-", "²": "2", "³": "3", "⁴": "4", "°": " deg",
    "…": "...", "Σ": "sum ", "√": "sqrt", "π": "pi", "σ": "sigma", "ρ": "rho", "φ": "phi", "₀": "0", "₁": "1", "₂": "2",
    "₃": "3", "′": "'", "″": '"', "“": '"', "”": '"', "‘": "'", "’": "'", "→": "->", "□": "?", "\u00a0": " ",
})  # fmt: skip


def ask_line(prompt: str) -> str:
    """The line that is typed in answer to a prompt. Raises EOFError where nothing more can be."""
    put(prompt)
    line = sys.stdin.readline()
    if not line:
        raise EOFError
    return line.rstrip("\r\n")


def put(text: str) -> None:
    """Writes to standard output: UTF-8 into files and pipes, to a terminal what its encoding can show."""
    sys.stdout.flush()
    encoding = (sys.stdout.encoding or "utf-8") if sys.stdout.isatty() else "utf-8"
    sys.stdout.buffer.write(shown_in(text, encoding).encode(encoding, errors="replace"))
    sys.stdout.buffer.flush()


def shown_in(text: str, encoding: str) -> str:
    """The text with plainer characters for those that an encoding lacks; the others stay."""

    def fits(part: str) -> bool:
        try:
            part.encode(encoding)
        except UnicodeEncodeError:
            return False
        return True

    return text if fits(text) else "".join(char if fits(char) else char.translate(_PLAINER) for char in text)
