"""The bench of a checked building, with the coefficients it was checked with."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.remedies.trial_judging import ChangeTester


def tester_for(checked: Checked) -> ChangeTester:
    """With the references it was checked with; tables of loads come with the facts."""
    return ChangeTester(checked, checked.needed_references)
