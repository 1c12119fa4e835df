"""The command that checks, in whole or in part, once or at every save."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.first_screen import first_screen
from compliance.commands.common.shared import Folder, checked_folder, put, stop, terminal_width, unknown_mark
from compliance.commands.common.shell_completion import complete_rule, complete_subject, complete_wall
from compliance.exit_codes import exit_code_of_check
from compliance.record import replace
from compliance.stages import Stage

if TYPE_CHECKING:
    from collections.abc import Sequence

    from compliance.checked import Checked
    from compliance.findings import Finding


class Format(StrEnum):
    table = "table"
    json = "json"
    csv = "csv"


class OutcomeName(StrEnum):
    """The outcomes of findings, here too so that --help need not load them."""

    engineer = "engineer"
    revise = "revise"
    missing = "missing"
    confirm = "confirm"
    later = "later"
    meets = "meets"
    not_applicable = "not-applicable"


_BRIEF = {OutcomeName.later, OutcomeName.meets, OutcomeName.not_applicable}
"""Whose findings have a line only where they are asked for."""


def check(
    folder: Folder,
    format: Annotated[Format, typer.Option(help="How to print the findings.")] = Format.table,
    all_lines: Annotated[
        bool, typer.Option("--all", help="Every finding by wall, those that meet or come later, too.")
    ] = False,
    walls: Annotated[bool, typer.Option("--walls", help="The findings by wall, most serious first.")] = False,
    why: Annotated[
        str | None,
        typer.Option(
            metavar="SUBJECT", help="All about one subject, such as W3, M1 or site.", autocompletion=complete_subject
        ),
    ] = None,
    stage: Annotated[
        Stage | None, typer.Option(help="Ask for what is due at this stage, not where the project says it stands.")
    ] = None,
    only: Annotated[
        list[str] | None,
        typer.Option(metavar="RULE", help="Show this rule only; may be repeated.", autocompletion=complete_rule),
    ] = None,
    wall: Annotated[
        list[str] | None,
        typer.Option(metavar="WALL", help="Show this wall only; may be repeated.", autocompletion=complete_wall),
    ] = None,
    outcome: Annotated[
        list[OutcomeName] | None, typer.Option(help="Show findings of this outcome only; may be repeated.")
    ] = None,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Only how many findings have each outcome.")] = False,
    watch: Annotated[bool, typer.Option("--watch", help="Check again at every save, until Ctrl-C.")] = False,
    each: Annotated[
        bool, typer.Option("--each", help="Check every project of the folder: a line of JSON for each, by name.")
    ] = False,
) -> None:
    """Says whether it can be built so far, what stops it, what to decide, what to ask, and what comes later.

    Exit code 0 when everything due at its stage meets, 1 when something does not, 2 when a file has an error; whatever
    is shown.

    Example: earthwall check example_project --wall W3 --outcome revise
    """
    narrowed = bool(only or wall or outcome or why or quiet or all_lines or walls or format is not Format.table)
    if each:
        if watch or narrowed or stage:
            raise stop("--each prints all findings of every project as JSON; leave the other options out")
        from compliance.commands.common.each_project import check_each

        raise typer.Exit(check_each(folder))
    if watch:
        if narrowed or stage:
            raise stop("--watch shows the whole check and then what changes; leave the other options out")
        from compliance.commands.common.watching import watch_folder

        raise typer.Exit(watch_folder(folder, put, terminal_width))
    checked = checked_folder(folder, stage=stage)
    if not narrowed:
        put(first_screen(checked, terminal_width()))
        raise typer.Exit(exit_code_of_check(checked.all_meet))
    shown = _chosen(checked, only or [], wall or [], outcomes=[one.value for one in outcome or []], subject=why)
    wants_all = bool(only or why) or bool(set(outcome or ()) & _BRIEF)
    part = replace(checked, findings=tuple(shown))
    put(_text(part, format=format, all_lines=all_lines or wants_all, quiet=quiet, whole=len(checked.findings)))
    raise typer.Exit(exit_code_of_check(checked.all_meet))


def _chosen(
    checked: Checked, rules: Sequence[str], walls: Sequence[str], outcomes: Sequence[str], subject: str | None
) -> Sequence[Finding]:
    """The findings to show. Stops where a rule, a wall or a subject is asked for that is not there."""
    if subject is not None and not any(subject in (one.subject, one.wall) for one in checked.findings):
        raise stop(unknown_mark(subject, (one.subject for one in checked.findings)))
    known = {name for one in checked.rule_sets for rule in one.rules for name in (rule.id, f"{one.id}/{rule.id}")}
    for rule in rules:
        if rule not in known:
            raise stop(_no_such_rule(rule, known))
    for wall in walls:
        if wall not in checked.project.walls:
            raise stop(unknown_mark(wall, checked.project.walls))
    return [
        one for one in checked.findings
        if (not rules or one.rule in rules or f"{one.rule_set}/{one.rule}" in rules)
        and (not walls or one.wall in walls)
        and (subject is None or subject in (one.subject, one.wall))
        and (not outcomes or one.outcome.value in outcomes)
    ]  # fmt: skip


def _no_such_rule(rule: str, known: set[str]) -> str:
    from compliance.refused import nearest

    near = nearest(rule, known)
    return f"no adopted rule set has a rule {rule!r}" + (f" (did you mean {near}?)" if near else "")


def _text(checked: Checked, format: Format, all_lines: bool, quiet: bool, whole: int) -> str:
    from compliance.output.terminal.check_table import check_table, tally_line

    of = 0 if len(checked.findings) == whole else whole
    if quiet:
        return tally_line(checked, of) + "\n"
    if format is Format.table:
        from textwrap import fill

        from compliance.report.answer.answer import answer
        from compliance.report.words.answer_words import stage_words

        width = terminal_width()
        if checked.project.is_earth_only and not of:
            from compliance.output.terminal.earth_screen import earth_check

            return earth_check(checked, width, all_lines)
        table = check_table(checked, width, all_lines, of)
        return table if of else f"{table}{fill(stage_words(answer(checked)), width)}\n"
    from compliance.report.revisions.findings_data import as_csv, as_json

    return as_json(checked) if format is Format.json else as_csv(checked)
