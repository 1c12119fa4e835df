"""The bench of a checked building, with the coefficients it was checked with."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.reading.reference_files.support_rules import read_support_rules
from compliance.remedies.trial_judging import Bench


def bench_for(checked: Checked) -> Bench:
    """Reads what the shipped references say of supports and gravity; tables of loads come with the facts."""
    return Bench(checked, read_support_rules(), read_material_practice().settling.gravity)
