"""The command `rules lint`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from compliance.commands.common.shared import put, stop_with


def rules_lint(
    files: Annotated[list[Path], typer.Argument(metavar="FILE...", help="Rule-set or amendment files.")],
) -> None:
    """Reads rule sets and amendments as strictly as a check does, runs their examples and the cases beside them, and
    names every slip with its line.

    Example: earthwall rules lint my_house/county.yaml
    """
    from compliance.linting.lint_rule_set import lint_file

    found = [problem for path in files for problem in lint_file(path)]
    if found:
        from compliance.problems import ProblemsFound

        raise stop_with(ProblemsFound(found), end="")
    put(f"{len(files)} {'file' if len(files) == 1 else 'files'}, no problems found\n")
