"""Columns that a laboratory could ask for next, put into the table for the time of a test."""

from __future__ import annotations

import csv
import io
import shutil
from collections.abc import Sequence
from pathlib import Path

import pytest

from compliance.model import lab_columns
from compliance.model.lab_columns import COLUMNS, LabColumn
from compliance.output.checklist import checklist_tables
from tests.conftest import EXAMPLE

ADDED = (
    LabColumn("cap_thickness", "specimen_length", required=False, may_be_empty=True, tables=("compression",),
              title="Cap thickness", meaning="thickness of the cap", above_zero=True),
    LabColumn("operator", "text", required=False, may_be_empty=True, title="Operator", meaning="who ran the test"),
    LabColumn("soaked_on", "date", required=False, may_be_empty=True, title="Soaked on", meaning="day of soaking"),
)  # fmt: skip
MORE = (
    LabColumn("load_at_first_crack", "test_load", required=False, may_be_empty=True, tables=("compression",),
              title="Load at which the first crack was seen", meaning="load at the first crack"),
    LabColumn("temperature_of_the_room", "temperature", required=False, may_be_empty=True, tables=("compression",),
              title="Temperature of the room during the test", meaning="temperature"),
    LabColumn("modulus", "stress", required=False, may_be_empty=True, tables=("compression",),
              title="Secant modulus of elasticity between a tenth and a third of the peak load", meaning="modulus"),
)  # fmt: skip
VALUES = {
    "cap_thickness": "0.125", "operator": "Marlowe", "soaked_on": "", "load_at_first_crack": "1987.25",
    "temperature_of_the_room": "68", "modulus": "21450.75",
}  # fmt: skip


def add_columns(monkeypatch: pytest.MonkeyPatch, added: Sequence[LabColumn] = ADDED) -> None:
    """Add the columns before the note."""
    whole = (*lab_columns.LAB_COLUMNS[:-1], *added, lab_columns.LAB_COLUMNS[-1])
    monkeypatch.setattr(lab_columns, "LAB_COLUMNS", whole)
    monkeypatch.setattr(checklist_tables, "LAB_COLUMNS", whole)
    for kind in COLUMNS:
        monkeypatch.setitem(COLUMNS, kind, {column.name: column for column in whole if kind in column.tables})


def folder_with_added(
    folder: Path, added: Sequence[LabColumn] = ADDED, own: Sequence[tuple[str, str]] = (), units: str = "us"
) -> Path:
    """The example with the added columns, and columns of the lab's `own`, filled in for every compression specimen."""
    shutil.copytree(EXAMPLE, folder)
    table = folder / "lab" / "compression.csv"
    head, *rows = csv.reader(io.StringIO(table.read_text(encoding="utf-8")))
    units_of = {"test_load": "lbf", "specimen_length": "in", "temperature": "degF", "stress": "psi"}
    names = [f"{one.name} [{units_of[one.what]}]" if one.kind else one.name for one in added]
    with table.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow([*head, *names, *(name for name, _ in own)])
        for number, row in enumerate(rows):
            theirs = [f"{value}{number}" for _, value in own]
            writer.writerow([*row, *(VALUES[one.name] for one in added), *theirs])
    if units == "si":
        project = folder / "project.yaml"
        project.write_text(project.read_text(encoding="utf-8").replace("units: us", "units: si"), encoding="utf-8")
    return folder
