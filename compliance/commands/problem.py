"""The command that explains a problem by its code."""

from __future__ import annotations

from typing import Annotated

import typer

from compliance.commands.common.shared import put, stop, terminal_width
from compliance.commands.common.shell_completion import complete_code


def problem(
    code: Annotated[
        str | None,
        typer.Argument(metavar="CODE", help="The code in square brackets. Without it: a list of all.",
                       autocompletion=complete_code),
    ] = None,
) -> None:  # fmt: skip
    """Explains a problem: what it means, a wrong example and a right one.

    Example: earthwall problem measure-no-unit
    """
    from compliance.problem_pages.pages import all_pages, list_text, page_text
    from compliance.refused import nearest

    pages = all_pages()
    if code is None:
        put(list_text(pages, terminal_width()))
        return
    wanted = code.strip("[]")
    if wanted not in pages:
        near = nearest(wanted, pages)
        raise stop(f"no problem has the code {wanted!r}" + (f" (did you mean {near}?)" if near else ""))
    put(page_text(pages[wanted], terminal_width()))
