"""The command `rules new`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from compliance.commands.common.shared import put, stop


def rules_new(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The file to write, such as my_house/county.yaml.")],
    amendment: Annotated[
        bool, typer.Option("--amendment", help="An amendment file: changes to adopted rule sets, not one of your own.")
    ] = False,
    of: Annotated[
        str, typer.Option("--of", metavar="NAME", help="An amendment that ships, such as california-2025-adobe.")
    ] = "",
) -> None:
    """Begins a rule set of your own, or an amendment file, from a template with notes on every line.

    Example: earthwall rules new my_house/county.yaml
    """
    from compliance.output.files.new_rules import shipped_amendments, write_shipped_amendment, write_template

    if file.suffix not in (".yaml", ".yml"):
        raise stop(f"{file}: give the file a name that ends in .yaml")
    if of and of not in shipped_amendments():
        raise stop(f"there is no amendment {of}: write one of {', '.join(shipped_amendments())}")
    try:
        if of:
            write_shipped_amendment(file, of)
        else:
            write_template(file, "amendments.yaml" if amendment else "county.yaml")
    except FileExistsError:
        raise stop(f"{file}: there is a file of that name already; nothing was written") from None
    except OSError as error:
        raise stop(f"{file}: not written: {error.strerror or error}") from None
    section = "amendments:" if amendment or of else "rule_sets:"
    put(f"Wrote {file}. Edit it, name it under {section} in project.yaml, then: earthwall rules lint {file}\n")
