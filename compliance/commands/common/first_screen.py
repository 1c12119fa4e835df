"""The first screen of a check, with the nearest changes that are found quickly."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from compliance.checked import Checked
    from compliance.findings import Finding

_MOST_TRIALS = 24
"""Changes judged for one screen: a small part of what the command that looks for remedies tries."""


def first_screen(checked: Checked, width: int) -> str:
    """The whole text; of a project of the earth alone its own."""
    if checked.project.is_earth_only:
        from compliance.output.terminal.earth_screen import earth_check

        return earth_check(checked, width)
    from compliance.output.terminal.answer_screen import answer_screen
    from compliance.report.answer.answer import answer

    found = answer(checked)
    changes = {}
    if found.stops and checked.references is not None:
        from compliance.remedies import NearestChanges, tester_for

        nearest = NearestChanges(tester_for(checked), _MOST_TRIALS)
        changes = {one.key: nearest.look_for(one.worst) for one in found.stops if not _is_stated(one.worst)}
    return answer_screen(checked, found, changes, width)


def _is_stated(finding: Finding) -> bool:
    """Whether the value is a field as it stands: the limit itself says what to make it."""
    from compliance.facts.catalogue import FACTS

    spec = FACTS.get(finding.value.symbol) if finding.value and finding.limit else None
    return spec is not None and spec.stated
