"""One doubt about a set of specimens, as data, so that it prints in either system of units."""

from __future__ import annotations

from enum import StrEnum

from compliance.record import record
from compliance.steps import Given
from compliance.units import Writer


class DoubtKind(StrEnum):
    """What a doubt is about."""

    VALUE = "value"
    SHAPE = "shape"
    ALIKE = "alike"
    DAY = "day"
    GAP = "gap"
    STRENGTH = "strength"
    BATCH = "batch"
    OUTLIER = "outlier"


@record
class Doubt:
    """`says` in words and values; `cure` what to look at. `specimen` is empty for a set as a whole, `column` names the
    cell where there is one. While a `grave` doubt stands nothing meets on the set; others are only named beside it."""

    kind: DoubtKind
    set: str
    specimen: str
    says: tuple[str | Given, ...]
    cure: str
    column: str = ""
    grave: bool = True

    def words(self, writer: Writer) -> str:
        """One sentence without a stop: what is doubtful, and what to look at."""
        return f"{self.sentence(writer)}: {self.cure}"

    def sentence(self, writer: Writer) -> str:
        """What is doubtful, in the units of `writer`."""
        return "".join(part if isinstance(part, str) else part.written(writer) for part in self.says)
