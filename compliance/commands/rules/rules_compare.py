"""The command `rules compare`."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.rule_source import read_source
from compliance.commands.common.shared import put


def rules_compare(
    one: Annotated[str, typer.Argument(metavar="A", help="A shipped rule set or a file.")],
    other: Annotated[str, typer.Argument(metavar="B", help="The one to compare it with.")],
) -> None:
    """Says what one rule set or edition changes against another, limit by limit.

    Example: earthwall rules compare cob-irc-2021-au my_house/county.yaml
    """
    from compliance.output.terminal.rule_comparison import comparison

    put(comparison(read_source(one), read_source(other)))
