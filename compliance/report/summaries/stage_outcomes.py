"""What a check found of each stage."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.findings import Outcome
from compliance.stages import Stage

_COUNTED = (Outcome.ENGINEER, Outcome.REVISE, Outcome.MISSING, Outcome.CONFIRM, Outcome.LATER, Outcome.MEETS)


def outcomes_at(checked: Checked, stage: Stage) -> str:
    """How many findings due at a stage have which outcome; empty where none is due there."""
    counts = {
        outcome: sum(one.stage is stage and one.outcome is outcome for one in checked.findings) for outcome in _COUNTED
    }
    return ", ".join(f"{count} {outcome.words}" for outcome, count in counts.items() if count)
