"""The commands: read what was asked, call, print. Everything heavy is imported inside the command."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands import (
    accept,
    blend,
    check,
    checklist,
    confirming,
    lab_request,
    limits,
    papers,
    problem,
    remedies,
    rules,
    start,
    submittal,
    worksheet,
)
from compliance.commands.common.shared import Folder, checked_folder, put, stop, terminal_width, unknown_mark
from compliance.commands.common.shell_completion import complete_rule, complete_subject

if TYPE_CHECKING:
    from compliance.checked import Checked

_plain = partial(typer.Typer, pretty_exceptions_enable=False, rich_markup_mode=None)

app = _plain(
    name="earthwall",
    no_args_is_help=True,
    help="Checks load-bearing earthen walls against editable rule sets and writes the submittal for the building "
    "official. A screening, not a design: the official and licensed engineers decide.",
)


app.command()(check.check)
app.command()(submittal.submittal)
app.command()(submittal.compare)


@app.command()
def explain(
    folder: Folder,
    subject: Annotated[
        str, typer.Argument(metavar="SUBJECT", help="A mark, such as W3, W3.D1 or T1.", autocompletion=complete_subject)
    ],
    rule: Annotated[
        str,
        typer.Argument(metavar="RULE", help="The id of a rule, as check prints it.", autocompletion=complete_rule),
    ],
) -> None:
    """Prints one calculation step by step, and the nearest changes that meet the rule where it is not met.

    Example: earthwall explain example_project W3 wall-thickness-least
    """
    checked = checked_folder(folder)
    from compliance.output.terminal.explanation import explanation

    found = [one for one in checked.findings if one.subject == subject and one.rule == rule]
    if not found:
        raise stop(_no_such_finding(checked, subject, rule))
    put("\n".join(explanation(one, checked) for one in found))
    to_mend = [one for one in found if one.outcome.value in ("revise", "engineer")]
    if to_mend:
        from compliance.output.terminal.remedy_text import caution
        from compliance.remedies import bench_for

        bench = bench_for(checked)
        put("\n".join(["", *(remedies.mended(bench, one, folder) for one in to_mend), caution(terminal_width())]))


def _no_such_finding(checked: Checked, subject: str, rule: str) -> str:
    from compliance.refused import nearest

    if not any(one.subject == subject for one in checked.findings):
        return unknown_mark(subject, (one.subject for one in checked.findings))
    rules = {one.rule for one in checked.findings if one.subject == subject}
    near = nearest(rule, rules)
    hint = f"did you mean {near}?" if near else f"known: {', '.join(sorted(rules))}"
    return f"no rule {rule!r} is about {subject} ({hint})"


@app.command()
def example(
    target: Annotated[Path, typer.Argument(metavar="TARGET", help="A folder that is not there yet.")],
) -> None:
    """Copies the example project, an invented building, to a new folder.

    Example: earthwall example my_walls
    """
    from compliance.output.files.new_folder import copy_example

    try:
        copy_example(target)
    except OSError as error:
        raise stop(f"{target}: not copied: {error.strerror or error}") from None
    typer.echo(f"Copied the example to {target}. Try: earthwall check {target}")


app.command()(blend.blend)
app.command()(papers.brief)
app.command()(papers.counter)
app.command()(papers.inspection)
app.command()(checklist.checklist)
app.command("lab-request")(lab_request.lab_request)
app.command()(worksheet.worksheet)
app.command()(limits.limits)
app.command()(confirming.confirm)
app.command()(accept.accept)
app.command()(start.start)
app.command()(problem.problem)
app.command()(remedies.mend)
app.command("try")(remedies.try_out)
app.command("range")(remedies.free_range)
app.add_typer(rules.app, name="rules")


@app.callback()
def _commands() -> None:
    """Keeps commands behind their names where only one is there."""


def app_for(arguments: Sequence[str]) -> typer.Typer:
    """The app with the one command that is asked for: to work out the options of all takes as long as to read a
    project. All of them where the first argument is no command."""
    asked = next(iter(arguments), "")
    chosen = [one for one in app.registered_commands if (one.name or _called(one.callback)) == asked]
    if not chosen:
        return app
    alone = _plain()
    alone.registered_callback, alone.registered_commands = app.registered_callback, chosen
    return alone


def _called(function: Callable[..., object] | None) -> str:
    return function.__name__ if function else ""
