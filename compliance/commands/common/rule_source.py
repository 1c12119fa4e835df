"""A rule set named on the command line: a shipped one, or a file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.shared import stop, stop_with

if TYPE_CHECKING:
    from compliance.rules.rule_set import RuleSet

Source = Annotated[str, typer.Argument(metavar="RULE_SET", help="The name of a shipped rule set, or a file.")]


def read_source(source: str) -> RuleSet:
    """Prints what is wrong with it and exits where it cannot be read."""
    from compliance.problems import ProblemsFound
    from compliance.reading.rule_files.rule_library import read_rule_set, read_shipped
    from compliance.refused import RefusedError

    try:
        return read_rule_set(Path(source), source) if source.endswith((".yaml", ".yml")) else read_shipped(source)
    except ProblemsFound as found:
        raise stop_with(found, end="") from None
    except RefusedError as refused:
        raise stop(str(refused)) from None
