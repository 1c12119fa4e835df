"""The bench of a checked building, with the coefficients it was checked with."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.remedies.trial_judging import Bench


def bench_for(checked: Checked) -> Bench:
    """With the references it was checked with; tables of loads come with the facts."""
    return Bench(checked, checked.needed_references)
