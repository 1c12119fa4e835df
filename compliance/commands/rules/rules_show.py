"""The command `rules show`."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.rule_source import Source, read_source
from compliance.commands.common.shared import put, stop


def rules_show(
    source: Source,
    rule: Annotated[str | None, typer.Argument(metavar="RULE", help="Without it: the whole rule set.")] = None,
) -> None:
    """Shows a rule in full: text, formula, limits with standing and source, tables, examples.

    Example: earthwall rules show cob-irc-2021-au wall-thickness-least
    """
    from compliance.output.terminal.rule_pages import rule_page, set_page
    from compliance.refused import nearest

    rule_set = read_source(source)
    if rule is None:
        put(set_page(rule_set))
        return
    for one in rule_set.rules:
        if one.id == rule:
            put(rule_page(one))
            return
    near = nearest(rule, (one.id for one in rule_set.rules))
    raise stop(f"{rule_set.id} has no rule {rule!r}" + (f" (did you mean {near}?)" if near else ""))
