"""The commands by name. Each is in a module of its own and imports what is heavy only when it runs."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import typer
from typer.core import TyperGroup

from compliance.commands import (
    accept,
    answer_,
    blend,
    check,
    confirm,
    desk,
    example,
    explain,
    limits,
    plan,
    problem,
    stage,
    start,
)
from compliance.commands.papers import (
    brief,
    checklist,
    compare,
    counter,
    earth,
    inspection,
    lab_request,
    sheets,
    submittal,
    worksheet,
)
from compliance.commands.remedies import mend, range_, try_
from compliance.commands.rules import (
    rules_compare,
    rules_facts,
    rules_lint,
    rules_list,
    rules_new,
    rules_packs,
    rules_questions,
    rules_show,
)

GROUPS: dict[str, dict[str, Callable[..., None]]] = {
    "Begin": {
        "start": start.start,
        "example": example.example,
        "problem": problem.problem,
    },
    "Check and change": {
        "check": check.check,
        "answer": answer_.answer_,
        "desk": desk.desk,
        "stage": stage.stage,
        "explain": explain.explain,
        "mend": mend.mend,
        "try": try_.try_,
        "range": range_.range_,
    },
    "Earth and tests": {
        "blend": blend.blend,
        "sheets": sheets.sheets,
        "earth": earth.earth,
        "lab-request": lab_request.lab_request,
    },
    "Papers": {
        "plan": plan.plan,
        "counter": counter.counter,
        "submittal": submittal.submittal,
        "compare": compare.compare,
        "brief": brief.brief,
        "inspection": inspection.inspection,
        "checklist": checklist.checklist,
    },
    "Limits and rules": {
        "limits": limits.limits,
        "worksheet": worksheet.worksheet,
        "confirm": confirm.confirm,
        "accept": accept.accept,
    },
}
"""In the order of the job, as `--help` lists them; `rules` stands in the last group."""

COMMANDS = {name: function for group in GROUPS.values() for name, function in group.items()}

RULES_COMMANDS: dict[str, Callable[..., None]] = {
    "list": rules_list.rules_list,
    "show": rules_show.rules_show,
    "new": rules_new.rules_new,
    "lint": rules_lint.rules_lint,
    "compare": rules_compare.rules_compare,
    "facts": rules_facts.rules_facts,
    "questions": rules_questions.rules_questions,
    "packs": rules_packs.rules_packs,
}
"""Those of `earthwall rules`."""


class GroupedHelp(TyperGroup):
    """Lists the commands by group, each with what it gives."""

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        last = list(GROUPS)[-1]
        for title, group in GROUPS.items():
            names = [*group, *(name for name in self.list_commands(ctx) if title == last and name not in COMMANDS)]
            rows = [
                (name, command.get_short_help_str(_LINE)) for name in names if (command := self.get_command(ctx, name))
            ]
            with formatter.section(title):
                formatter.write_dl(rows)


_LINE = 400
"""Longer than any: what a command gives is not cut off."""


def _app(commands: dict[str, Callable[..., None]], help: str, name: str, grouped: bool = False) -> typer.Typer:
    made = typer.Typer(
        name=name,
        cls=GroupedHelp if grouped else TyperGroup,
        help=help,
        no_args_is_help=True,
        pretty_exceptions_enable=False,
        rich_markup_mode=None,
    )
    for called, function in commands.items():
        made.command(called)(function)
    return made


app = _app(
    COMMANDS,
    "Checks load-bearing earthen walls against editable rule sets and writes the submittal for the building official. "
    "A screening, not a design: the official and licensed engineers decide.",
    "earthwall",
    grouped=True,
)
app.add_typer(_app(RULES_COMMANDS, "Rule sets: list, show, lint, compare; and the facts they are written in.", "rules"))
