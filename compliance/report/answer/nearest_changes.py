"""The nearest change that meets, for each line of what stops."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from compliance.checked import Checked
from compliance.facts.catalogue import FACTS
from compliance.findings import Finding
from compliance.remedies.changes import Change
from compliance.remedies.nearest import NearestChanges, go_on
from compliance.remedies.trial_judging import tester_for
from compliance.report.answer.answer import Answer

_MOST_TRIALS = 24
"""Changes judged for one screen: a small part of what the command that looks for remedies tries."""


def nearest_by_cause(checked: Checked, found: Answer, pause: Callable[[], None] = go_on) -> Mapping[str, Change | None]:
    """By the key of each cause; no entry where none was looked for. `pause` is called before each trial."""
    if not found.stops or checked.references is None:
        return {}
    nearest = NearestChanges(tester_for(checked), _MOST_TRIALS, pause)
    return {one.key: nearest.look_for(one.worst) for one in found.stops if not _is_stated(one.worst)}


def _is_stated(finding: Finding) -> bool:
    """Whether the value is a field as it stands: the limit itself says what to make it."""
    spec = FACTS.get(finding.value.symbol) if finding.value and finding.limit else None
    return spec is not None and spec.stated
