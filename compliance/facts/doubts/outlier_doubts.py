"""Values that stand apart in their set, named beside what they say."""

from __future__ import annotations

from compliance.facts.doubts.doubt import Doubt, DoubtKind
from compliance.facts.specimens.set_record import SetRecord


def outlier_doubts(mark: str, found: SetRecord) -> tuple[Doubt, ...]:
    """One for each specimen beyond the critical value of a test of outliers: a remark, it counts all the same."""
    doubts: dict[str, Doubt] = {}
    for specimen, test in found.suspects:
        if test.beyond and test.statistic is not None and test.critical is not None:
            says = f"{specimen} stands apart by {test.test}, {test.statistic:.3f} where {test.critical:.3f} is critical"
            cure = "it counts all the same: look at how it was made, dried, capped and tested"
            doubt = Doubt(DoubtKind.OUTLIER, set=mark, specimen=specimen, says=(says,), cure=cure, grave=False)
            doubts.setdefault(specimen, doubt)
    return tuple(doubts.values())
