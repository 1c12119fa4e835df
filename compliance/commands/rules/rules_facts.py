"""The command `rules facts`."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.shared import put, stop


def rules_facts(
    about: Annotated[
        str | None, typer.Argument(metavar="SUBJECT", help="wall, opening, mix ...: all without it.")
    ] = None,
) -> None:
    """Lists the facts that formulas may use, by subject, with their units.

    Example: earthwall rules facts wall
    """
    from compliance.facts.catalogue import ABOUTS
    from compliance.output.terminal.rule_pages import fact_pages

    if about is not None and about not in ABOUTS:
        raise stop(f"there are no facts about {about!r} (known: {', '.join(ABOUTS)})")
    put(fact_pages(about))
