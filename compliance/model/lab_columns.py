"""The columns of the lab tables: one record for each, which reading, statistics, papers and blank tables follow."""

from __future__ import annotations

from typing import Any, Literal

from compliance.model.materials import SpecimenKind
from compliance.record import record
from compliance.units import KINDS, Kind, Writer

Supplier = Literal["builder", "laboratory"]


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

    def heading(self, writer: Writer) -> str:
        """The heading as a table has it, the unit in square brackets: `width [in]`."""
        unit = writer.unit_symbol(self.what) if self.kind is not None else ""
        return f"{self.name} [{unit}]" if unit else self.name

    @property
    def words(self) -> str:
        """The name as people write it; as a heading it reads like the name."""
        text = self.name.replace("_", " ")
        return f"{text[:1].upper()}{text[1:]}"

    def heading_in_words(self, writer: Writer) -> str:
        """The heading of a table that people fill in: `Peak load [lbf]`."""
        return f"{self.words}{self.heading(writer).removeprefix(self.name)}"


@record
class LabColumn(ColumnSpec):
    """A column of the lab tables of `tables`.

    `title` heads it on paper, `meaning` says what to enter, `supplier` who enters it. `printed` is where a row shows
    it: in a column, in a line below the row, or not at all because the title of the set says it. `decimals` are those
    of a converted figure in US and in SI units, None for those of its kind. `above_zero`: a measure of 0 is refused.
    A value goes to the field of that name in `model.specimens.Specimen`, or to its `more` where there is no such field.
    """

    tables: tuple[SpecimenKind, ...] = ("compression", "rupture", "shrinkage")
    title: str = ""
    meaning: str = ""
    supplier: Supplier = "laboratory"
    printed: Literal["column", "below", "title"] = "column"
    decimals: tuple[int, int] | None = None
    above_zero: bool = False

    def decimals_in(self, writer: Writer) -> int:
        """Decimals of a converted figure, at least; 0 for what is not measured."""
        kind = self.kind
        if kind is None:
            return 0
        us, si = self.decimals or (kind.us_decimals, kind.si_decimals)
        return us if writer.system == "us" else si


def _text(name: str, title: str, meaning: str, supplier: Supplier = "laboratory", **more: Any) -> LabColumn:
    given: dict[str, Any] = {"required": False, "may_be_empty": True} | more
    return LabColumn(name, "text", title=title, meaning=meaning, supplier=supplier, **given)


def _measure(name: str, kind: str, title: str, meaning: str, *tables: SpecimenKind, **more: Any) -> LabColumn:
    given: dict[str, Any] = {"may_be_empty": True, "tables": tables} | more
    return LabColumn(name, kind, title=title, meaning=meaning, **given)


def _day(name: str, title: str, meaning: str, supplier: Supplier) -> LabColumn:
    return LabColumn(name, "date", may_be_empty=True, title=title, meaning=meaning, supplier=supplier)


SHAPES = ("cube", "prism", "cylinder", "bar")
DRYING = ("air", "oven")
LOADING = ("centre", "third")
_PRESSED: SpecimenKind = "compression"
_BENT: SpecimenKind = "rupture"
_DRIED: SpecimenKind = "shrinkage"
_LENGTH = "specimen_length"

LAB_COLUMNS: tuple[LabColumn, ...] = (
    LabColumn("set", "text", title="Set", meaning="mark of the set", supplier="builder", printed="title"),
    LabColumn(
        "specimen", "text", title="Specimen", meaning="mark of the specimen", supplier="builder", printed="title"
    ),
    LabColumn("mix", "text", title="Mix", meaning="mark of the mix", supplier="builder", printed="title"),
    _day("cast", "Cast", "day of casting", "builder"),
    _day("tested", "Tested", "day of the test or of the last measuring", "laboratory"),
    LabColumn(
        "dried", "choice", may_be_empty=True, choices=DRYING, title="Dried", meaning="how it was dried",
        supplier="builder",
    ),
    LabColumn(
        "shape", "choice", may_be_empty=True, choices=SHAPES, tables=(_PRESSED, _BENT), title="Shape",
        meaning="shape of the specimen", supplier="builder",
    ),
    _text(
        "nominal_size", "Nominal size", "size of the form, such as 4 x 4 x 8 in", "builder", tables=(_PRESSED, _BENT)
    ),
    _measure(
        "width", _LENGTH, "Width", "side of the loaded face, or diameter of a cylinder", _PRESSED, above_zero=True
    ),
    _measure("width", _LENGTH, "Width", "side across the beam", _BENT, above_zero=True),
    _measure("depth", _LENGTH, "Depth", "other side of the loaded face", _PRESSED, above_zero=True),
    _measure("depth", _LENGTH, "Depth", "length of the beam", _BENT, above_zero=True),
    _measure("height", _LENGTH, "Height", "side along the load", _PRESSED, _BENT, above_zero=True),
    _measure("span", _LENGTH, "Span", "distance between the supports", _BENT, above_zero=True),
    LabColumn(
        "loading", "choice", required=False, may_be_empty=True, choices=LOADING, tables=(_BENT,), title="Loading",
        meaning="where the load stands: at the center or at the third points of the span",
    ),
    _measure("form_length", _LENGTH, "Form", "inside length of the form", _DRIED, supplier="builder", above_zero=True),
    _measure(
        "dried_length", _LENGTH, "Dried bar", "length of the dried bar, cracks pushed shut", _DRIED, above_zero=True
    ),
    _measure(
        "shrinkage", "share", "Lab's result", "shrinkage as the laboratory states it", _DRIED,
        required=False,
    ),
    _measure("mass", "specimen_mass", "Mass", "mass at the test", _PRESSED, _BENT, above_zero=True),
    _measure("peak_load", "test_load", "Peak load", "greatest load of the test", _PRESSED, _BENT),
    _measure("strength", "stress", "Lab's result", "strength as the laboratory computes it", _PRESSED, _BENT),
    _measure(
        "stress_rate", "stress_rate", "Stress rate", "rate of loading, where it is held by stress", _PRESSED, _BENT,
        required=False, above_zero=True,
    ),
    _measure(
        "force_rate", "force_rate", "Force rate", "rate of loading, where it is held by force", _PRESSED, _BENT,
        required=False, above_zero=True,
    ),
    _measure(
        "moisture", "share", "Moisture", "water at the test, as a share of the dry mass", _PRESSED, _BENT,
        required=False,
    ),
    _text("failure", "Failure", "how and where it broke", tables=(_PRESSED, _BENT)),
    _text("batch", "Batch", "mark of the batch it was cast from", "builder"),
    _text("note", "Note", "anything unusual that was seen", printed="below"),
)  # fmt: skip
"""In the order a new table gets them. A name stands twice where it means another thing in another table."""

COLUMNS: dict[SpecimenKind, dict[str, LabColumn]] = {
    kind: {column.name: column for column in LAB_COLUMNS if kind in column.tables} for kind in (_PRESSED, _BENT, _DRIED)
}
"""The columns of each lab table by name."""
