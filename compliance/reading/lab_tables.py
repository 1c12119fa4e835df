"""The lab tables of a project folder, `lab/*.csv`, into specimens."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from compliance.model.materials import SpecimenKind
from compliance.model.specimens import Specimen
from compliance.problems import Problem, ProblemsFound
from compliance.reading.csv_table import ColumnSpec, Row, read_csv_table
from compliance.units import Measure

LAB = "lab"
SHAPES = ("cube", "prism", "cylinder", "bar")
DRYING = ("air", "oven")


def _columns(*middle: ColumnSpec) -> dict[str, ColumnSpec]:
    head = (
        ColumnSpec("set", "text"),
        ColumnSpec("specimen", "text"),
        ColumnSpec("mix", "text"),
        ColumnSpec("cast", "date", may_be_empty=True),
        ColumnSpec("tested", "date", may_be_empty=True),
        ColumnSpec("dried", "choice", may_be_empty=True, choices=DRYING),
    )
    note = ColumnSpec("note", "text", required=False, may_be_empty=True)
    return {column.name: column for column in (*head, *middle, note)}


def _measure(name: str, kind: str, required: bool = True) -> ColumnSpec:
    return ColumnSpec(name, kind, required=required, may_be_empty=True)


_SHAPE = ColumnSpec("shape", "choice", may_be_empty=True, choices=SHAPES)
_SIDES = (_measure("width", "thickness"), _measure("depth", "thickness"), _measure("height", "thickness"))
_RESULT = (_measure("mass", "mass"), _measure("peak_load", "force"), _measure("strength", "stress"))

COLUMNS: dict[SpecimenKind, dict[str, ColumnSpec]] = {
    "compression": _columns(_SHAPE, *_SIDES, *_RESULT),
    "rupture": _columns(_SHAPE, *_SIDES, _measure("span", "thickness"), *_RESULT),
    "shrinkage": _columns(_measure("form_length", "thickness"), _measure("dried_length", "thickness")),
}
"""The columns of each lab table, in the order a new table gets them."""


def read_lab_tables(folder: Path) -> tuple[list[Specimen], list[str], list[Problem]]:
    """All specimens, the names of the files read, and the problems found. A table may be absent."""
    specimens: list[Specimen] = []
    names: list[str] = []
    problems: list[Problem] = []
    for kind, columns in COLUMNS.items():
        name = f"{LAB}/{kind}.csv"
        if not (folder / name).exists():
            continue
        names.append(name)
        try:
            rows = read_csv_table(folder / name, name, columns)
        except ProblemsFound as found:
            problems += found.problems
            continue
        read = [_specimen(kind, row) for row in rows]
        problems += [problem for row, one in zip(rows, read, strict=True) for problem in _row_problems(row, one)]
        specimens += read
    return specimens, names, problems


def _specimen(kind: SpecimenKind, row: Row) -> Specimen:
    values = row.values

    def si(name: str) -> float | None:
        value = values.get(name)
        return value.si if isinstance(value, Measure) else None

    def day(name: str) -> date | None:
        value = values.get(name)
        return value if isinstance(value, date) else None

    return Specimen(
        kind, str(values["set"]), str(values["specimen"]), str(values["mix"]), row.place, day("cast"), day("tested"),
        row.texts.get("dried") or None, row.texts.get("shape") or None, si("width"), si("depth"), si("height"),  # type: ignore[arg-type]
        si("span"), si("mass"), si("peak_load"), si("strength"), si("form_length"), si("dried_length"),
        row.texts.get("note", ""), row.texts, row.extra,
    )  # fmt: skip


def _row_problems(row: Row, specimen: Specimen) -> list[Problem]:
    """What a row says that cannot be: reversed dates, sizes of zero, a bar longer than its form."""
    problems = []
    if specimen.cast and specimen.tested and specimen.tested < specimen.cast:
        wrong = f"{specimen.mark} was tested on {specimen.tested}, before it was cast on {specimen.cast}"
        problems.append(Problem(row.place_of("tested"), "lab-dates", wrong, "correct one of the two dates"))
    for name in ("width", "depth", "height", "span", "mass", "form_length", "dried_length"):
        if getattr(specimen, name) == 0:
            problems.append(
                Problem(
                    row.place_of(name),
                    "lab-zero",
                    f"{specimen.mark} has a {name} of zero",
                    "measure it, or leave the cell empty",
                )
            )
    if specimen.form_length and specimen.dried_length and specimen.dried_length > specimen.form_length * (1 + 1e-9):
        wrong = f"{specimen.mark} dried to more than the length of its form"
        problems.append(Problem(row.place_of("dried_length"), "lab-swelled", wrong, "correct one of the two lengths"))
    return problems
