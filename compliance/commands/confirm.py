"""The command `confirm`: a limit as read, written into the amendment file."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from compliance.commands.common.shared import Folder, put, stop, stop_with


def confirm(
    folder: Folder,
    rule: Annotated[str, typer.Argument(metavar="RULE", help="The id of the rule, or RULE_SET/RULE.")],
    limit: Annotated[str, typer.Argument(metavar="LIMIT", help="The name of the limit.")],
    value: Annotated[str, typer.Option(help='The value as read, with its unit, such as "8 ft".')],
    by: Annotated[str, typer.Option(help="Who read it.")],
    where: Annotated[str, typer.Option(help="Where it stands in the adopted copy.")],
    on: Annotated[str | None, typer.Option(metavar="DATE", help="When, as 2026-05-14. Without it: today.")] = None,
    cell: Annotated[
        str | None, typer.Option(metavar="ROW,COLUMN", help="For a table: which cell, as rules show numbers them.")
    ] = None,
    reason: Annotated[str | None, typer.Option(help="Why it differs, where it is looser than the shipped one.")] = None,
) -> None:
    """Writes a limit that you read in the adopted copy into the project's amendment file.

    Example: earthwall confirm my_house wall-height most --value "8 ft" --by "R. Pell" --where "Table AU105.3"
    """
    from compliance.editing.limit_confirmation import Confirmation, ConfirmError, confirm_limit
    from compliance.problems import ProblemsFound

    try:
        day = date.fromisoformat(on) if on else date.today()
        row, column = _row_and_column(cell) if cell else (None, None)
    except ValueError:
        raise stop("write --on as 2026-05-14, and --cell as 2,3 or, for a table of one column, as 2") from None
    confirmation = Confirmation(rule, limit, value, by, where, day, row, column, reason)
    try:
        done = confirm_limit(folder, confirmation)
    except ProblemsFound as found:
        raise stop_with(found) from None
    except (ConfirmError, OSError) as error:
        raise stop(str(error)) from None
    put(done)


def _row_and_column(cell: str) -> tuple[int, int]:
    """`2,3`, or `2` for the only column. Raises ValueError."""
    row, _, column = cell.partition(",")
    return int(row), int(column or 1)
