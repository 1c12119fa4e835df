"""Reading 5,000 lab rows beside the bare csv.DictReader on the same rows, and from a workbook. No time is asserted.

    python -m pytest tests/benchmarks/test_lab_rows.py --benchmark-only -s

prints how many times as long as the bare reader each takes, best of several rounds.
"""

from __future__ import annotations

import csv
import io
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from compliance.model.lab import Lab
from compliance.model.project import Project
from compliance.reading.tables.lab_tables import read_lab_tables
from compliance.reading.yaml.placed import PlacedDict

ROWS = 5000
HEADINGS = [
    "set", "specimen", "mix", "cast", "tested", "dried", "shape", "width [in]", "depth [in]", "height [in]",
    "mass [lb]", "peak_load [lbf]", "strength [psi]", "batch", "note",
]  # fmt: skip


def rows() -> list[list[Any]]:
    """Plain synthetic specimens, each with its own numbers."""
    made = []
    for number in range(ROWS):
        width, depth, load = 4 + number % 37 / 1000, 4 + number % 41 / 1000, 1600 + number % 997
        strength = round(load / (width * depth), 3)
        made.append([f"T{number // 5}", f"S{number}", "M1", "2026-04-06", "2026-05-20", "air", "prism", width, depth,
                     8.0, 8.1, load, strength, "BA1", ""])  # fmt: skip
    return made


def write_csv(path: Path) -> None:
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([HEADINGS, *rows()])


def best(work: Callable[[], object], rounds: int = 7) -> float:
    taken = []
    for _ in range(rounds):
        before = time.perf_counter()
        work()
        taken.append(time.perf_counter() - before)
    return min(taken)


@pytest.fixture(scope="module")
def folders(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """A folder with the table as CSV under our headings, and one with it as a workbook."""
    plain, book = tmp_path_factory.mktemp("plain"), tmp_path_factory.mktemp("book")
    (plain / "lab").mkdir()
    write_csv(plain / "lab" / "compression.csv")
    workbook = openpyxl.Workbook(write_only=True)
    sheet = workbook.create_sheet("Prisms")
    for row in (HEADINGS, *rows()):
        sheet.append(row)
    workbook.save(book / "prisms.xlsx")
    return plain, book


def read(folder: Path, lab: dict[str, Any]) -> int:
    project = Project.model_construct(lab=Lab.model_validate(lab), test_sets={})
    specimens, _, problems = read_lab_tables(folder, project, PlacedDict("project.yaml", (1, 1)))
    assert not problems, problems[:3]
    return len(specimens)


def bare(folder: Path) -> int:
    text = (folder / "lab" / "compression.csv").read_text(encoding="utf-8")
    return len(list(csv.DictReader(io.StringIO(text))))


def test_csv_rows(benchmark: Any, folders: tuple[Path, Path]) -> None:
    plain, _ = folders
    assert benchmark(read, plain, {}) == ROWS == bare(plain)
    ratio = best(lambda: read(plain, {})) / best(lambda: bare(plain))
    print(f"\n{ROWS} rows of CSV into specimens: {ratio:.1f} times csv.DictReader")


def test_workbook_rows(benchmark: Any, folders: tuple[Path, Path]) -> None:
    plain, book = folders
    lab = {"compression": {"file": "prisms.xlsx"}}
    assert benchmark(read, book, lab) == ROWS
    ratio = best(lambda: read(book, lab)) / best(lambda: bare(plain))
    print(f"\n{ROWS} rows of a workbook into specimens: {ratio:.1f} times csv.DictReader")
