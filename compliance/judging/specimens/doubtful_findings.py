"""Findings about a set whose results are in doubt: nothing meets on them until somebody has looked."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.facts.doubts.doubt import Doubt
from compliance.findings import Finding, Lack, Missing, Outcome
from compliance.judging.set_reasons import Doubtful, InDoubt
from compliance.record import replace

_MOST_NAMED = 3


def with_doubts(found: Finding, doubts: Sequence[Doubt], lab: str) -> Finding:
    """The finding with what is doubtful named beside its reason; `missing` in place of `meets` where that is grave."""
    grave = [one for one in doubts if one.grave]
    named = tuple(Doubtful(one.says, one.cure) for one in (grave + [one for one in doubts if not one.grave]))
    if not grave or found.outcome is not Outcome.MEETS:
        return replace(found, beside=(*found.beside, *named[:_MOST_NAMED]))
    lacks = tuple(dict.fromkeys(_lack(one, lab) for one in grave))
    reason = InDoubt(found.reason, named[:_MOST_NAMED])
    return replace(found, outcome=Outcome.MISSING, reason=reason, missing=lacks, remedy="")


def _lack(doubt: Doubt, lab: str) -> Missing:
    if doubt.specimen and doubt.column:
        return Missing(Lack.CELL, (f"a sure {doubt.column}", doubt.specimen, doubt.set), lab)
    return Missing(Lack.ROWS, (doubt.set,), lab)
