"""The result of a finding in a few words: value and limit, or the reason."""

from __future__ import annotations

from compliance.findings import Finding, Outcome, Standing
from compliance.report.grouping import reason_of
from compliance.report.value_words import NOTHING, relation, value_and_limit
from compliance.units import Writer

_UNANSWERED = "an answer, or its evidence, is still needed"


def format_result(finding: Finding, writer: Writer) -> str:
    """Value and limit, or the reason where there is no value; of an open limit its name."""
    if finding.kind == "attest" and finding.outcome is Outcome.MISSING:
        return _UNANSWERED
    value, limit = value_and_limit(finding, writer)
    opened = dict.fromkeys(one.name for one in finding.limits if one.standing is Standing.OPEN)
    if finding.outcome is Outcome.CONFIRM and opened:
        return f"{value}; limit open" if finding.value else f"limit open: {', '.join(opened).replace('_', ' ')}"
    worded = finding.value is None or (isinstance(finding.value.value, bool) and finding.outcome is not Outcome.MEETS)
    if worded:
        return reason_of([finding])
    return f"{value}; limit {relation(finding)} {limit}" if limit != NOTHING else value
