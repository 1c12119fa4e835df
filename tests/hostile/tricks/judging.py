"""What a check says of the rule of a trick."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from compliance.checking import check_folder
from compliance.findings import Finding, Outcome
from compliance.problems import ProblemsFound
from tests.hostile.tricks.project import lay_out
from tests.sentences import sentence


def said(finding: Finding) -> str:
    """What a reader sees beside the outcome: the reason, and what an amendment did to the limits."""
    amended = [
        f"{limit.name} was {limit.amended.before.value if limit.amended.before else 'open'}: {limit.amended.by}"
        for limit in finding.limits
        if limit.amended
    ]
    return " ".join([sentence(finding), *amended])


def slipped_through(folder: Path, trick: dict[str, Any]) -> str:
    """How the trick passes for sound; empty where it is refused, or where what is doubtful is named."""
    try:
        checked = check_folder(lay_out(folder, trick))
    except ProblemsFound as found:
        codes = sorted({one.code for one in found.problems})
        return "" if codes == [trick.get("refused")] else f"refused for {codes}: {found.problems[0]}"
    if "refused" in trick:
        return "not refused"
    of_rule = [one for one in checked.findings if one.rule == trick["rule"]]
    assert of_rule, "the rule of the trick found nothing"
    names = re.compile(trick["says"])
    for one in of_rule:
        others = [other for other in checked.findings if other.subject == one.subject]
        beside = [other for other in others if other.outcome is not Outcome.MEETS]
        if one.outcome is Outcome.MEETS and not any(names.search(said(each)) for each in (one, *beside)):
            return f"{one.rule} of {one.subject} meets: {said(one)}"
    words = [said(one) for one in of_rule] + [str(warning) for warning in checked.warnings]
    if not any(names.search(text) for text in words):
        return f"the doubt is not named: {[f'{one.outcome}: {said(one)}' for one in of_rule]}"
    return ""
