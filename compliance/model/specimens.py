"""Rows of the lab tables: one specimen each, in SI, with the text as the lab wrote it."""

from dataclasses import field
from datetime import date
from typing import Literal

from compliance.model.materials import SpecimenKind
from compliance.problems import Place
from compliance.record import record

Shape = Literal["cube", "prism", "cylinder", "bar"]
Loading = Literal["centre", "third"]
Entry = float | date | str


@record
class Specimen:
    """One specimen as tested. Lengths in m, mass in kg, load in N, strength in Pa; None where not given.

    Compression: `width` x `depth` is the loaded face (a cylinder's `width` is its diameter), `height` stands
    along the load. Rupture: `width` across, `height` along the load, `depth` the length of the beam, `span` between
    supports, `loading` at the centre or at the third points of the span. Shrinkage: `form_length` of the form and
    `dried_length` of the dried bar. `batch` is the mark of the batch it was cast from. `more` holds the columns of
    `model.lab_columns` that have no field here, `texts` all of them as the lab wrote them, `extra` the lab's own.
    """

    kind: SpecimenKind
    set: str
    mark: str
    mix: str
    place: Place
    cast: date | None = None
    tested: date | None = None
    dried: str | None = None
    shape: Shape | None = None
    width: float | None = None
    depth: float | None = None
    height: float | None = None
    span: float | None = None
    mass: float | None = None
    peak_load: float | None = None
    strength: float | None = None
    form_length: float | None = None
    dried_length: float | None = None
    note: str = ""
    texts: dict[str, str] = field(default_factory=dict)
    extra: dict[str, str] = field(default_factory=dict)
    loading: Loading | None = None
    batch: str = ""
    more: dict[str, Entry] = field(default_factory=dict)

    def value(self, column: str) -> Entry | None:
        """What stands in a column of `model.lab_columns`, measures in SI; None where nothing does."""
        if column in self.more:
            return self.more[column]
        found: Entry | None = getattr(self, column) if column in FIELDS else None
        return found or None if isinstance(found, str) else found

    def measure(self, column: str) -> float | None:
        """The SI value in a column that holds a measure; None where nothing stands there."""
        found = self.value(column)
        return found if isinstance(found, float) else None


FIELDS = frozenset(Specimen.__annotations__) - {"kind", "mark", "place", "texts", "extra", "more"}
"""Columns with a field of their own in `Specimen`, by the same name: those that something is worked out from."""
