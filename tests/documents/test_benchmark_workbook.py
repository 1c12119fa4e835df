"""The workbook that speed is measured against holds what the submittal holds, worked out by formulas of its own."""

from __future__ import annotations

from pathlib import Path

import openpyxl

from compliance.steps import Given, Step
from tests.benchmarks.spreadsheet import formula_of, write_workbook
from tests.documents.conftest import PrintedExample


def test_a_worked_line_becomes_a_formula_over_its_cells() -> None:
    given = (Given("P", 3.0, "force"), Given("b", 2.0, "length"), Given("t", 4.0, "length"))
    result = Given("f", 1.0, "stress")
    assert formula_of(Step("", "3 × P / (b × t²)", given, result), 7) == "=3 * F7 / (G7 * H7^2)"
    assert formula_of(Step("", "max(P − b, √12)", given, result), 2) == "=MAX(F2 - G2, SQRT(12))"
    assert formula_of(Step("", "P as measured", given, result), 2) is None
    assert formula_of(Step("", "", given, result), 2) is None


def test_every_finding_and_most_of_the_numbers(printed_example: PrintedExample, tmp_path: Path) -> None:
    checked = printed_example.made
    wanted = write_workbook(checked, tmp_path / "b.xlsx", printed_example.path)
    book = openpyxl.load_workbook(tmp_path / "b.xlsx", read_only=True)
    assert sum(name.startswith("Picture") for name in book.sheetnames) >= 10
    rows = list(book["Findings"].iter_rows(values_only=True))
    assert [row[1] for row in rows[1:]] == [one.rule for one in checked.findings]
    assert sum(str(row[10]).startswith("=IF(") for row in rows) > 300
    assert len(wanted) > 2000
