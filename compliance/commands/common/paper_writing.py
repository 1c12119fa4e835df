"""Writing a paper: one file, whole or not at all, and where it is."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.progress import Progress
from compliance.commands.common.shared import stop

if TYPE_CHECKING:
    from compliance.checked import Checked

Output = Annotated[Path | None, typer.Option(help="The PDF to write. Without it: out/ in the current folder.")]
Force = Annotated[bool, typer.Option("--force", help="Replace a file that this tool did not write.")]


def default_path(folder: Path, what: str) -> Path:
    """In `out/`, whatever stands in `what`: it may hold words of the project, such as its revision."""
    from compliance.output.files.write_targets import file_name

    return Path("out") / f"{file_name(f'{folder.resolve().name}-{what}')}.pdf"


def write_paper(checked: Checked, target: Path, write: Callable[[Checked, Path], None], force: bool = False) -> None:
    """Writes and says so; exits with an error and its reason where it cannot be written."""
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
