"""Entering a filled-in sheet of limits: comma-separated values, a workbook, the worksheet's own form fields."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pypdf
import pytest
import xlsxwriter
from typer.testing import CliRunner, Result

from compliance.checking import check_folder
from compliance.cli import app
from compliance.documents.counter.limits_worksheet import write_worksheet
from compliance.findings import LimitUsed, Standing
from tests.conftest import RULES, Write
from tests.unit.test_amendments import OPEN_RULE, TABLE_RULE

ALL = RULES.replace("status: practice", "status: code") + OPEN_RULE + TABLE_RULE


def invoke(*args: str) -> Result:
    return CliRunner().invoke(app, list(args))


def sheet(folder: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(invoke("limits", str(folder), "--format", "csv").stdout)))


def filled(folder: Path) -> list[dict[str, str]]:
    """The sheet with a value for the open limit and for one cell."""
    rows = sheet(folder)
    for row in rows:
        if row["rule"] == "height":
            row |= {"value as read": "9 ft", "read by": "R. Pell", "on": "2026-05-14", "where": "Table 2"}
        if (row["rule"], row["row"]) == ("tabled", "2"):
            row |= {"value as read": "10 ft", "read by": "M. Orr", "on": "2026-05-15", "where": "Table 3"}
    return rows


def as_csv(rows: list[dict[str, str]]) -> str:
    out = io.StringIO()
    writer = csv.DictWriter(out, rows[0].keys())
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


def limits_of(folder: Path) -> dict[str, LimitUsed]:
    return {limit.name: limit for one in check_folder(folder).findings for limit in one.limits}


def test_a_line_for_each_limit_and_each_cell(project: Write) -> None:
    rows = sheet(project(rules=ALL))
    assert [(row["rule"], row["limit"], row["row"], row["column"], row["standing"]) for row in rows] == [
        ("height", "most", "", "", "open"),
        ("tabled", "tallest", "1", "1", "open"),
        ("tabled", "tallest", "2", "1", "recalled"),
        ("thick-enough", "least", "", "", "read"),
    ]
    assert all(not row["value as read"] for row in rows)


def confirmed_both(folder: Path) -> None:
    limits = limits_of(folder)
    assert limits["most"].standing is limits["tallest"].standing is Standing.CONFIRMED
    (amended,) = limits["tallest"].history
    assert (amended.by, amended.on, amended.where, amended.cell) == (
        "M. Orr",
        "2026-05-15",
        "Table 3",
        "row 2, column 1",
    )
    assert amended.is_confirmation and limits["most"].history[0].before is None


def test_comma_separated_values(project: Write, tmp_path: Path) -> None:
    folder = project(rules=ALL)
    path = tmp_path / "filled.csv"
    path.write_text(as_csv(filled(folder)), encoding="utf-8")
    ran = invoke("confirm", str(folder), "--from", str(path))
    assert ran.exit_code == 0, ran.output
    confirmed_both(folder)
    assert not any(row["value as read"] for row in sheet(folder))


def test_a_workbook(project: Write, tmp_path: Path) -> None:
    folder = project(rules=ALL)
    rows = filled(folder)
    book = xlsxwriter.Workbook(tmp_path / "filled.xlsx")
    page = book.add_worksheet()
    for line, cells in enumerate([list(rows[0]), *(list(row.values()) for row in rows)]):
        page.write_row(line, 0, [text or None for text in cells])
    book.close()
    assert invoke("confirm", str(folder), "--from", str(tmp_path / "filled.xlsx")).exit_code == 0
    confirmed_both(folder)


def fill_form(folder: Path, tmp_path: Path, texts: dict[str, str]) -> Path:
    write_worksheet(check_folder(folder), tmp_path / "worksheet.pdf")
    writer = pypdf.PdfWriter(clone_from=tmp_path / "worksheet.pdf")
    for page in writer.pages:
        writer.update_page_form_field_values(page, texts)
    writer.write(tmp_path / "filled.pdf")
    return tmp_path / "filled.pdf"


HEAD = {"reader": "R. Pell", "copy": "2026", "day": "2026-05-14"}


def test_the_form_of_the_worksheet(project: Write, tmp_path: Path) -> None:
    folder = project(rules=ALL)
    path = fill_form(folder, tmp_path, {**HEAD, "trial/height/most/value": "9 ft", "trial/tabled/tallest/2,1": "10 ft"})
    ran = invoke("confirm", str(folder), "--from", str(path))
    assert ran.exit_code == 0, ran.output
    limits = limits_of(folder)
    assert limits["most"].standing is limits["tallest"].standing is Standing.CONFIRMED
    assert limits["most"].source == "Table 2" and limits["most"].history[0].by == "R. Pell"


@pytest.mark.parametrize(
    ("texts", "says"),
    [
        ({"trial/height/most/initials": "RP"}, "initials stand here, and no value"),
        ({"trial/height/most/value": "9 ft", "trial/height/most/edition": "2009"}, "amendment-edition"),
        ({"trial/height/most/value": "80 ft"}, "amendment-unusual"),
        ({"trial/gone/most/value": "8 ft"}, "no value is filled in"),
        ({"trial/height/most/value": "9 ft", "day": "14 May"}, "'14 May' is no date"),
        ({"trial/height/most/value": "9 ft", "reader": ""}, "nobody is named"),
    ],
)
def test_a_form_that_is_not_taken_leaves_all_as_it_was(
    project: Write, tmp_path: Path, texts: dict[str, str], says: str
) -> None:
    folder = project(rules=ALL)
    path = fill_form(folder, tmp_path, {**HEAD, **texts})
    before = {one: one.read_bytes() for one in folder.iterdir()}
    ran = invoke("confirm", str(folder), "--from", str(path))
    assert ran.exit_code == 2 and says in ran.output, ran.output
    assert {one: one.read_bytes() for one in folder.iterdir()} == before


def test_one_bad_line_keeps_all_lines_out(project: Write, tmp_path: Path) -> None:
    folder = project(rules=ALL)
    rows = filled(folder)
    rows[-1] |= {"value as read": "8 in", "read by": "M. Orr", "on": "2026-05-15", "where": "T1"}
    path = tmp_path / "filled.csv"
    path.write_text(as_csv(rows), encoding="utf-8")
    ran = invoke("confirm", str(folder), "--from", str(path))
    assert ran.exit_code == 2 and "filled.csv:5:68:" in ran.output and "amendment-reason" in ran.output
    assert not (folder / "amendments.yaml").exists()


@pytest.mark.parametrize(
    "text", ["", "a,b\n1,2\n", "rule,limit,value as read\nheight,most,\n", "%PDF-1.4\n%%EOF", "PK\3\4"]
)
def test_what_is_no_sheet(project: Write, tmp_path: Path, text: str) -> None:
    folder = project(rules=ALL)
    path = tmp_path / "filled"
    path.write_text(text, encoding="utf-8")
    ran = invoke("confirm", str(folder), "--from", str(path))
    assert ran.exit_code == 2 and "nothing was written" in ran.output
    assert "limit-sheet" in ran.output or "xlsx-format" in ran.output or "csv-" in ran.output
