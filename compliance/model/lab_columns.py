"""The columns of the lab tables."""

from __future__ import annotations

from compliance.model.materials import SpecimenKind
from compliance.record import record
from compliance.units import KINDS, Kind


@record
class ColumnSpec:
    """A column that a reader knows: its heading without the unit, and what its cells hold.

    `what` is "text", "date", "choice" (with `choices`), or the name of a kind of measure. `required`: the column
    must be there; `may_be_empty`: its cells may be blank.
    """

    name: str
    what: str
    required: bool = True
    may_be_empty: bool = False
    choices: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.kind is None and self.what not in ("text", "date", "choice"):
            raise ValueError(f"column {self.name!r}: no kind of measure is called {self.what!r}")
        if (self.what == "choice") != bool(self.choices):
            raise ValueError(f"column {self.name!r}: choices go with a choice, and only with one")

    @property
    def kind(self) -> Kind | None:
        """The kind of measure; None for text, dates and choices."""
        return KINDS.get(self.what)


SHAPES = ("cube", "prism", "cylinder", "bar")
DRYING = ("air", "oven")
LOADING = ("centre", "third")


def _columns(*middle: ColumnSpec) -> dict[str, ColumnSpec]:
    head = (
        ColumnSpec("set", "text"),
        ColumnSpec("specimen", "text"),
        ColumnSpec("mix", "text"),
        ColumnSpec("cast", "date", may_be_empty=True),
        ColumnSpec("tested", "date", may_be_empty=True),
        ColumnSpec("dried", "choice", may_be_empty=True, choices=DRYING),
    )
    batch = ColumnSpec("batch", "text", required=False, may_be_empty=True)
    note = ColumnSpec("note", "text", required=False, may_be_empty=True)
    return {column.name: column for column in (*head, *middle, batch, note)}


def _measure(name: str, kind: str, required: bool = True) -> ColumnSpec:
    return ColumnSpec(name, kind, required=required, may_be_empty=True)


_SHAPE = ColumnSpec("shape", "choice", may_be_empty=True, choices=SHAPES)
_LOADING = ColumnSpec("loading", "choice", required=False, may_be_empty=True, choices=LOADING)
_SIDES = (_measure("width", "thickness"), _measure("depth", "thickness"), _measure("height", "thickness"))
_RESULT = (_measure("mass", "mass"), _measure("peak_load", "force"), _measure("strength", "stress"))

COLUMNS: dict[SpecimenKind, dict[str, ColumnSpec]] = {
    "compression": _columns(_SHAPE, *_SIDES, *_RESULT),
    "rupture": _columns(_SHAPE, *_SIDES, _measure("span", "thickness"), _LOADING, *_RESULT),
    "shrinkage": _columns(_measure("form_length", "thickness"), _measure("dried_length", "thickness")),
}
"""The columns of each lab table, in the order a new table gets them."""
