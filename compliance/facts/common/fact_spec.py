"""What is said of every fact: its kind, its label, and what is plausible."""

from __future__ import annotations

from functools import cache, cached_property

from compliance.record import record
from compliance.units import KINDS, parse_measure


@record
class FactSpec:
    """`label` follows "the" in a sentence. `least` and `most` bound what is plausible, as measures or numbers.

    `stated`: a field of that name in the description. `compute`: the function of the building and the subject that
    works it out when a rule first asks for it, by its path below `compliance.facts`; such modules hold all of the
    mechanics and are imported only then. Facts with neither come from the functions that `derive` calls.
    """

    name: str
    kind: str
    label: str
    meaning: str = ""
    least: str = ""
    most: str = ""
    choices: tuple[str, ...] = ()
    stated: bool = False
    compute: str = ""

    @property
    def about(self) -> str:
        return self.name.partition(".")[0]

    @property
    def field(self) -> str:
        return self.name.partition(".")[2]

    @cached_property
    def plausible(self) -> tuple[float, float]:
        """The plausible range in SI; without bounds where none is stated."""
        least = _bound(self.least, self.kind) if self.least else float("-inf")
        return least, _bound(self.most, self.kind) if self.most else float("inf")


@cache
def _bound(text: str, kind_name: str) -> float:
    kind = KINDS[kind_name]
    return parse_measure(text, kind).si if kind.us or kind.si else float(text)


YES_NO, WORD = "yes-no", "word"
