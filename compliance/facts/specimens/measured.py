"""The result of one specimen."""

from __future__ import annotations

from compliance.record import record
from compliance.steps import Step


@record
class Measured:
    """Stress in Pa, or shrinkage as a share; None with the reason why not."""

    value: float | None
    step: Step | None = None
    reason: str = ""
