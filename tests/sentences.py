"""Reasons of findings as readers see them."""

from compliance.findings import Finding
from compliance.report.words.missing_words import reason_text
from compliance.units import Writer


def sentence(finding: Finding, units: str = "us") -> str:
    """The reason of a finding in one sentence."""
    return reason_text(finding, Writer("si" if units == "si" else "us"))
