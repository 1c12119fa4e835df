"""The commands by name. Each is in a module of its own and imports what is heavy only when it runs."""

from __future__ import annotations

from collections.abc import Callable

import typer

from compliance.commands import accept, blend, check, confirm, example, explain, limits, problem, start
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
    rules_questions,
    rules_show,
)

COMMANDS: dict[str, Callable[..., None]] = {
    "check": check.check,
    "submittal": submittal.submittal,
    "compare": compare.compare,
    "explain": explain.explain,
    "example": example.example,
    "blend": blend.blend,
    "brief": brief.brief,
    "counter": counter.counter,
    "inspection": inspection.inspection,
    "checklist": checklist.checklist,
    "earth": earth.earth,
    "sheets": sheets.sheets,
    "lab-request": lab_request.lab_request,
    "worksheet": worksheet.worksheet,
    "limits": limits.limits,
    "confirm": confirm.confirm,
    "accept": accept.accept,
    "start": start.start,
    "problem": problem.problem,
    "mend": mend.mend,
    "try": try_.try_,
    "range": range_.range_,
}
"""In the order in which `--help` lists them."""

RULES_COMMANDS: dict[str, Callable[..., None]] = {
    "list": rules_list.rules_list,
    "show": rules_show.rules_show,
    "new": rules_new.rules_new,
    "lint": rules_lint.rules_lint,
    "compare": rules_compare.rules_compare,
    "facts": rules_facts.rules_facts,
    "questions": rules_questions.rules_questions,
}
"""Those of `earthwall rules`."""


def _app(commands: dict[str, Callable[..., None]], help: str, name: str) -> typer.Typer:
    made = typer.Typer(
        name=name, help=help, no_args_is_help=True, pretty_exceptions_enable=False, rich_markup_mode=None
    )
    for called, function in commands.items():
        made.command(called)(function)
    return made


app = _app(
    COMMANDS,
    "Checks load-bearing earthen walls against editable rule sets and writes the submittal for the building official. "
    "A screening, not a design: the official and licensed engineers decide.",
    "earthwall",
)
app.add_typer(_app(RULES_COMMANDS, "Rule sets: list, show, lint, compare; and the facts they are written in.", "rules"))
