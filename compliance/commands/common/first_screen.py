"""The first screen of a check, with the nearest changes that are found quickly."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from compliance.checked import Checked


def first_screen(checked: Checked, width: int) -> str:
    """The whole text; of a project of the earth alone its own."""
    if checked.project.is_earth_only:
        from compliance.output.terminal.earth_screen import earth_check

        return earth_check(checked, width)
    from compliance.output.terminal.answer_screen import answer_screen
    from compliance.report.answer.answer import answer
    from compliance.report.answer.nearest_changes import nearest_by_cause

    found = answer(checked)
    return answer_screen(checked, found, nearest_by_cause(checked, found), width)
