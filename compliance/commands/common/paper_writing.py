"""Writing a paper, one file, or several in a folder: whole or not at all, and where it is."""

from __future__ import annotations

from collections.abc import Callable, Mapping
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
    """In `out/`, whatever stands in `what`."""
    from compliance.output.files.write_targets import PAPERS_FOLDER, paper_name

    return Path(PAPERS_FOLDER) / f"{paper_name(folder, what)}.pdf"


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


def write_papers(
    checked: Checked, target: Path, build: Callable[[Checked], Mapping[str, bytes]], force: bool = False
) -> None:
    """Writes a folder of PDFs by their names and says so; exits with an error and its reason where it cannot be
    written."""
    from compliance.documents.page.errors import DocumentError
    from compliance.output.files.paper_folder import allow_folder, write_folder
    from compliance.output.files.write_targets import TargetError

    try:
        with Progress("writing the pages"):
            allow_folder(target, force, checked.inputs)
            files = {f"{name}.pdf": data for name, data in build(checked).items()}
            target.parent.mkdir(parents=True, exist_ok=True)
            write_folder(target, files, force, checked.inputs)
    except TargetError as error:
        raise stop(str(error)) from None
    except (DocumentError, OSError) as error:
        raise stop(f"{target}: not written: {error}") from None
    for name in files:
        typer.echo(f"Wrote {target / name}")
