"""Two validators of PDF/UA-1 independent of each other: page-validation (104 rules) and pdfua (another subset)."""

from __future__ import annotations

from pathlib import Path

import page
import pdfua

RULES = 104


def faults(path: Path) -> list[str]:
    """What either validator finds, warnings among it; at least as many rules as known must have been looked at."""
    report = page.validate_pdf(path, profile="ua1")
    assert report.rules.total >= RULES
    found = {f"{one.rule_id}: {one.message}" for one in report.failures}
    other = pdfua.validate(str(path))
    return sorted(found | {f"{one.rule_id}: {one.message}" for one in other.findings})
