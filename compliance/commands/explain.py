"""The command `explain`: one calculation, step by step."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.shared import Folder, checked_folder, put, stop, terminal_width, unknown_mark
from compliance.commands.common.shell_completion import complete_rule, complete_subject

if TYPE_CHECKING:
    from compliance.checked import Checked


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
        from compliance.commands.common.remedy_block import mended
        from compliance.output.terminal.remedy_text import caution
        from compliance.remedies import tester_for

        tester = tester_for(checked)
        put("\n".join(["", *(mended(tester, one, folder) for one in to_mend), caution(terminal_width())]))


def _no_such_finding(checked: Checked, subject: str, rule: str) -> str:
    from compliance.refused import nearest

    if not any(one.subject == subject for one in checked.findings):
        return unknown_mark(subject, (one.subject for one in checked.findings))
    rules = {one.rule for one in checked.findings if one.subject == subject}
    near = nearest(rule, rules)
    hint = f"did you mean {near}?" if near else f"known: {', '.join(sorted(rules))}"
    return f"no rule {rule!r} is about {subject} ({hint})"
