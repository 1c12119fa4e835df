"""The result of one specimen."""

from __future__ import annotations

from dataclasses import dataclass

from compliance.steps import Step


@dataclass(frozen=True, slots=True)
class Measured:
    """Stress in Pa, or shrinkage as a share; None with the reason why not."""

    value: float | None
    step: Step | None = None
    reason: str = ""
