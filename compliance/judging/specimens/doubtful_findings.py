"""Findings about a set whose results are in doubt: nothing meets on them until somebody has looked."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.facts.doubts.doubt import Doubt
from compliance.findings import Finding, Lack, Missing, Outcome, Reason
from compliance.judging.context import Context
from compliance.record import replace

_MOST_NAMED = 3


def with_doubts(context: Context, found: Finding, doubts: Sequence[Doubt], lab: str) -> Finding:
    """The finding with what is doubtful named beside its reason; `missing` in place of `meets` where that is grave."""
    if not doubts:
        return found
    grave = [one for one in doubts if one.grave]
    ordered = [*grave, *(one for one in doubts if not one.grave)]
    named = "; ".join(one.words(context.writer) for one in ordered[:_MOST_NAMED])
    more = f"; and {len(ordered) - _MOST_NAMED} more" if len(ordered) > _MOST_NAMED else ""
    if not grave or found.outcome is not Outcome.MEETS:
        return replace(found, reason=f"{found.reason}; to look at: {named}{more}")
    reason = f"{named}{more}; as it stands {found.reason}"
    lacks = tuple(dict.fromkeys(_lack(one, lab) for one in grave))
    return replace(found, outcome=Outcome.MISSING, why=Reason.DOUBTFUL, reason=reason, missing=lacks, remedy="")


def _lack(doubt: Doubt, lab: str) -> Missing:
    if doubt.specimen and doubt.column:
        return Missing(Lack.CELL, (f"a sure {doubt.column}", doubt.specimen, doubt.set), lab)
    return Missing(Lack.ROWS, (doubt.set,), lab)
