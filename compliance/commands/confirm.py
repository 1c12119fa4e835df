"""The command `confirm`: limits as read in the adopted copy, one or a filled-in sheet of them."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.shared import Folder, put, stop, stop_with

if TYPE_CHECKING:
    from compliance.editing.limit_confirmation import Confirmation
    from compliance.rules.limits.filled_limit import FilledLimit

_DATES = "write --on as 2026-05-14, and --cell as 2,3 or, for a table of one column, as 2"


def confirm(
    folder: Folder,
    rule: Annotated[str | None, typer.Argument(metavar="RULE", help="The id of the rule, or RULE_SET/RULE.")] = None,
    limit: Annotated[str | None, typer.Argument(metavar="LIMIT", help="The name of the limit.")] = None,
    value: Annotated[str | None, typer.Option(help='The value as read, with its unit, such as "8 ft".')] = None,
    by: Annotated[str | None, typer.Option(help="Who read it.")] = None,
    where: Annotated[str | None, typer.Option(help="Where it stands in the adopted copy.")] = None,
    on: Annotated[str | None, typer.Option(metavar="DATE", help="When, as 2026-05-14. Without it: today.")] = None,
    cell: Annotated[
        str | None, typer.Option(metavar="ROW,COLUMN", help="For a table: which cell, as rules show numbers them.")
    ] = None,
    edition: Annotated[str | None, typer.Option(help="The edition of the copy; must be the adopted one.")] = None,
    reason: Annotated[str | None, typer.Option(help="Why it differs, where it may be looser or is unusual.")] = None,
    authority: Annotated[str | None, typer.Option(help="Whose decision that is, such as an ordinance.")] = None,
    from_file: Annotated[
        Path | None,
        typer.Option("--from", metavar="FILE", help="A filled-in sheet: limits --format csv, a workbook, a worksheet."),
    ] = None,
) -> None:
    """Writes limits that you read in the adopted copy into the project's amendment file.

    Example: earthwall confirm my_house wall-height maximum --value "8 ft" --by "R. Pell" --where "Table AU105.3"
    """
    from compliance.editing.file_edits import EditRefusedError
    from compliance.editing.limit_confirmation import Confirmation, confirm_limits
    from compliance.problems import ProblemsFound

    try:
        day = date.fromisoformat(on) if on else date.today()
        row, column = _row_and_column(cell) if cell else (None, None)
    except ValueError:
        raise stop(_DATES) from None
    try:
        if from_file is not None:
            if rule or limit or value or cell:
                raise stop("--from takes rule, limit and value from the file; leave them out")
            confirmations = _from_file(
                from_file, by=by or "", where=where or "", day=day, authority=authority, reason=reason
            )
        else:
            if not (rule and limit and value and by and where):
                raise stop("confirm needs RULE, LIMIT, --value, --by and --where; or --from FILE")
            confirmations = [
                Confirmation(
                    rule,
                    limit=limit,
                    value=value,
                    by=by,
                    where=where,
                    on=day,
                    row=row,
                    column=column,
                    reason=reason,
                    authority=authority,
                    edition=edition,
                )
            ]
        done = confirm_limits(folder, confirmations)
    except ProblemsFound as found:
        raise stop_with(found) from None
    except (EditRefusedError, OSError) as error:
        raise stop(f"{error}; nothing was written") from None
    put(done.words + "\n")


def _row_and_column(cell: str) -> tuple[int, int]:
    """`2,3`, or `2` for the only column. Raises ValueError."""
    row, _, column = cell.partition(",")
    return int(row), int(column or 1)


def _from_file(
    path: Path, by: str, where: str, day: date, authority: str | None, reason: str | None
) -> list[Confirmation]:
    """What the lines say; the options stand in where a line says nothing. Raises ProblemsFound."""
    from compliance.problems import Problem, ProblemsFound
    from compliance.reading.filled_limits import read_filled_limits

    lines = read_filled_limits(path, path.as_posix())
    found, problems = [], []
    for line in lines:
        if not (line.by or by):
            wrong = f"nobody is named who read {line.rule} {line.limit}"
            problems.append(Problem(line.place, "limit-sheet", wrong, "fill in who read it, or give --by"))
            continue
        try:
            found.append(_confirmation(line, by=by, where=where, day=day, authority=authority, reason=reason))
        except ValueError:
            wrong = f"{line.on!r} is no date, or {line.row!r} and {line.column!r} name no cell"
            instead = "write dates as 2026-05-14, rows and columns as whole numbers from 1"
            problems.append(Problem(line.place, "limit-sheet", wrong, instead))
    if problems:
        raise ProblemsFound(problems)
    return found


def _confirmation(
    line: FilledLimit, by: str, where: str, day: date, authority: str | None, reason: str | None
) -> Confirmation:
    """Raises ValueError for a date or a cell that cannot be read."""
    from compliance.editing.limit_confirmation import Confirmation

    return Confirmation(
        line.rule,
        limit=line.limit,
        value=line.value,
        by=line.by or by,
        where=line.where or where,
        on=date.fromisoformat(line.on) if line.on else day,
        row=int(line.row) if line.row else None,
        column=int(line.column) if line.column else None,
        reason=line.reason or reason,
        authority=line.authority or authority,
        edition=line.edition or None,
        place=line.place,
    )
