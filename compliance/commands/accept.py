"""The command `accept`: what an official accepted outside a limit."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from compliance.commands.common.shared import Folder, put, stop, stop_with
from compliance.commands.common.shell_completion import complete_rule, complete_subject


def accept(
    folder: Folder,
    subject: Annotated[
        str, typer.Argument(metavar="SUBJECT", help="A mark, such as W3 or W3.D1.", autocompletion=complete_subject)
    ],
    rule: Annotated[
        str,
        typer.Argument(metavar="RULE", help="The id of the rule, or RULE_SET/RULE.", autocompletion=complete_rule),
    ],
    by: Annotated[str, typer.Option(help="The official who accepted it.")],
    on: Annotated[str, typer.Option(metavar="DATE", help="When, as 2026-05-14.")],
    document: Annotated[str, typer.Option(help="The letter or decision that says so.")],
    condition: Annotated[str | None, typer.Option(help="On what condition.")] = None,
    until: Annotated[str | None, typer.Option(metavar="DATE", help="The last day it holds.")] = None,
) -> None:
    """Records that an official accepted a finding outside a limit. It then prints as accepted, and still does not meet.

    It lapses by itself when the value, the limit, the rule or the edition changes, or when the project is dated after
    its last day.

    Example: earthwall accept my_house W3 wall-thickness-least --by "R. Pell" --on 2026-05-14 --document "Letter 12"
    """
    from compliance.editing.accepted_deviations import Acceptance, accept_deviation
    from compliance.editing.file_edits import EditRefusedError
    from compliance.problems import ProblemsFound

    try:
        days = date.fromisoformat(on), date.fromisoformat(until) if until else None
    except ValueError:
        raise stop("write --on and --until as 2026-05-14") from None
    try:
        done = accept_deviation(
            folder,
            Acceptance(
                rule, subject=subject, official=by, on=days[0], document=document, condition=condition, until=days[1]
            ),
        )
    except ProblemsFound as found:
        raise stop_with(found) from None
    except (EditRefusedError, OSError) as error:
        raise stop(f"{error}; nothing was written") from None
    put(f"{folder / next(iter(done.after))}: {done.words}\n")
