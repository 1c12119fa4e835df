"""The command `answer`: what only a person can say, asked one after the other, by name, or from a sheet."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.shared import Folder, checked_folder, put, stop
from compliance.commands.common.shell_completion import complete_rule, complete_subject

if TYPE_CHECKING:
    pass


def answer_(
    folder: Folder,
    rule: Annotated[
        str | None,
        typer.Argument(
            metavar="RULE",
            help="The id of one rule, or RULE_SET/RULE. Without it: all due.",
            autocompletion=complete_rule,
        ),
    ] = None,
    yes: Annotated[bool | None, typer.Option("--yes/--no", help="The answer to RULE; nothing is asked then.")] = None,
    about: Annotated[
        list[str] | None,
        typer.Option(
            metavar="SUBJECT",
            help="Of which mark; may be repeated. Without it: all without an answer.",
            autocompletion=complete_subject,
        ),
    ] = None,
    by: Annotated[str | None, typer.Option(help="Who says so.")] = None,
    on: Annotated[str | None, typer.Option(metavar="DATE", help="When, as 2026-05-14. Without it: today.")] = None,
    evidence: Annotated[
        list[str] | None,
        typer.Option(metavar="FILE", help="A photo or paper, copied in, or the mark of one; may be repeated."),
    ] = None,
    title: Annotated[
        list[str] | None, typer.Option(help="The title of each piece of evidence; without it the name of its file.")
    ] = None,
    dated: Annotated[
        str | None, typer.Option(metavar="DATE", help="The day of the evidence; without it what the photo says.")
    ] = None,
    note: Annotated[str, typer.Option(help="What else is to be said.")] = "",
    sheet: Annotated[bool, typer.Option("--sheet", help="Print the questions as a sheet (CSV) to fill in.")] = False,
    from_file: Annotated[
        Path | None,
        typer.Option("--from", metavar="FILE", help="A filled-in sheet, CSV or a workbook; its files lie beside it."),
    ] = None,
    later: Annotated[bool, typer.Option("--later", help="Also questions that a later stage asks.")] = False,
) -> None:
    """Asks the questions that are due and only a person can answer, and writes the answers into the project.

    Evidence is copied into photos/ or papers/. Inspections that are due are recorded the same way.

    Example: earthwall answer my_house uplift-anchorage --about W1 --yes --by "Ana Diaz" --evidence detail.pdf
    """
    from compliance.commands.common.answering import enter, enter_sheet, evidence_of, given_answer, question_named
    from compliance.report.answer.questions_due import questions_due

    days = _days(on, dated)
    if from_file is not None:
        if rule or yes is not None or about or evidence or title or note or sheet or dated:
            raise stop("--from takes its answers from the sheet; leave all out but --by and --on")
        enter_sheet(folder, from_file, by=by or "", on=days[0])
        return
    checked = checked_folder(folder)
    questions = question_named(checked, rule, about or []) if rule else questions_due(checked, later)
    if sheet:
        from compliance.report.answer.answer_sheet import answer_sheet

        put(answer_sheet(questions))
        return
    if yes is None:
        if evidence or title or note or dated or (about and not rule):
            raise stop("an answer from the command line needs RULE and --yes or --no; without these it is asked")
        from compliance.commands.common.answer_talk import ask_all

        ask_all(folder, checked, questions, days[0])
        return
    if not rule or not by:
        raise stop("--yes and --no need RULE and --by")
    if len(title or ()) > len(evidence or ()):
        raise stop("each --title is that of one --evidence; there are more titles")
    filed = evidence_of(evidence or [], title or [], days[1])
    enter(folder, [
        given_answer(one, yes, by=by, on=days[0], evidence=filed, note=note) for one in questions
    ])  # fmt: skip


def _days(on: str | None, dated: str | None) -> tuple[date, date | None]:
    try:
        return date.fromisoformat(on) if on else date.today(), date.fromisoformat(dated) if dated else None
    except ValueError:
        raise stop("write --on and --dated as 2026-05-14") from None
