"""The worksheet: every limit once, least known first, with boxes of its own, and no command.

`tests/unit/test_confirming_sheets.py` fills its fields in and reads them back.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pypdf
import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.counter.limits_worksheet import write_worksheet
from compliance.documents.counter.worksheet_tables import table_of
from compliance.findings import Finding, Outcome, Standing
from compliance.report.limits.limit_list import ListedLimit, limit_text, limits_of_codes
from compliance.rules.tables import Table
from compliance.units import Writer
from tests.conftest import EXAMPLE
from tests.documents.buildings import checked, finding, limit_used
from tests.documents.reading_back import Read, fonts_without_file, one_line, overlapping, read_back
from tests.running import run_tool

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> tuple[Checked, Path, Read, list[ListedLimit]]:
    made = check_folder(EXAMPLE)
    path = tmp_path_factory.mktemp("sheet") / "worksheet.pdf"
    write_worksheet(made, path)
    return made, path, read_back(path), limits_of_codes(made)


def test_every_limit_relied_on_is_on_it_once_and_no_command(
    example: tuple[Checked, Path, Read, list[ListedLimit]],
) -> None:
    _, path, read, listed = example
    assert sorted(names_in_order(path)) == sorted(name_of(one) for one in listed)
    assert f"{len(listed)} limits: " in read.text
    assert "earthwall" not in read.text and "--" not in read.text and "/" + listed[0].limit.rule not in read.text


def name_of(one: ListedLimit) -> str:
    return f"{one.limit.rule_set}/{one.limit.rule}/{one.limit.name}"


def names_in_order(path: Path) -> list[str]:
    """The limits that have fields, in the order of the pages."""
    fields = pypdf.PdfReader(path).get_fields() or {}
    return [name.removesuffix("/initials") for name in fields if name.endswith("/initials")]


def test_the_least_known_come_first(example: tuple[Checked, Path, Read, list[ListedLimit]]) -> None:
    _, path, read, listed = example
    there = [one for one in reversed(Standing) if any(each.limit.standing is one for each in listed)]
    titles = [title for level, title, _ in read.outline if level == 1]
    assert titles[: len(there)] == [one.value.capitalize() for one in there]
    assert names_in_order(path) == [name_of(one) for one in listed]


def test_what_is_known_stands_beside_what_is_to_be_read(
    example: tuple[Checked, Path, Read, list[ListedLimit]],
) -> None:
    made, _, read, listed = example
    writer = Writer(made.project.project.units)
    text = read.text.replace("\x02", "-").replace(" ", "")  # a hyphen at the end of a line is read as that sign
    for one in listed:
        assert one_line(one.limit.read_in or one.limit.clause).replace(" ", "") in text
        assert limit_text(one.limit, writer).replace(" ", "") in text


def test_fields_for_value_edition_and_initials_of_each(
    example: tuple[Checked, Path, Read, list[ListedLimit]],
) -> None:
    made, path, _, listed = example
    fields = pypdf.PdfReader(path).get_fields()
    assert fields is not None
    tables = [table for one in listed if (table := table_of(made, one.limit))]
    cells = sum(len(table.cells[place]) for table in tables for place in rows_in_use(made, table))
    assert sum(re.search(r"/\d+,\d+$", name) is not None for name in fields) == cells > 0
    for kind, count in (("value", len(listed) - len(tables)), ("edition", len(listed)), ("initials", len(listed))):
        assert sum(name.endswith(f"/{kind}") for name in fields) == count
    assert {"reader", "copy", "day"} <= set(fields)
    assert all(field["/FT"] == "/Tx" for field in fields.values())


def rows_in_use(made: Checked, table: Table) -> list[int]:
    """Of a table by wall type the rows of the types that walls have."""
    if table.rows.fact != "wall.method":
        return list(range(len(table.cells)))
    types = {wall.method for wall in made.project.walls.values()}
    return [place for place, entry in enumerate(table.rows.entries) if entry in types]


def test_fits_in_six_pages(example: tuple[Checked, Path, Read, list[ListedLimit]]) -> None:
    _, _, read, listed = example
    assert len(listed) >= 60 and len(read.pages) <= 6


def test_tables_are_printed_with_every_row_and_column_in_use(
    example: tuple[Checked, Path, Read, list[ListedLimit]],
) -> None:
    made, _, read, listed = example
    part = read.text[read.text.index("Tables Rows and columns count from 1") :]
    tables = [(one, table) for one in listed if (table := table_of(made, one.limit))]
    assert tables
    for one, table in tables:
        for place in rows_in_use(made, table):
            entry = table.rows.entries[place]
            assert not isinstance(entry, str) or f"{place + 1}: {entry}" in part
        for number, entry in enumerate(table.columns.entries if table.columns else (), start=1):
            assert not isinstance(entry, str) or f"{number}: {entry}" in part
        assert one_line(table.read_in or table.clause).replace(" ", "") in part.replace("\x02", "-").replace(" ", "")
        assert one.title in part


def test_no_limits(tmp_path: Path) -> None:
    write_worksheet(checked(1, 1, findings=[]), tmp_path / "out.pdf")
    assert "No finding of this project rests on a limit of a code or standard." in read_back(tmp_path / "out.pdf").text


def test_limits_of_findings_that_do_not_apply_are_left_out(tmp_path: Path) -> None:
    found: list[Finding] = [
        finding("rule-1", Outcome.MEETS),
        finding("rule-2", Outcome.NOT_APPLICABLE, limits=(limit_used("rule-2"),)),
    ]
    write_worksheet(checked(2, 2, findings=found), tmp_path / "out.pdf")
    text = read_back(tmp_path / "out.pdf").text
    assert "Title of rule-1: least" in text and "rule-2" not in text


def test_pages_are_sound(example: tuple[Checked, Path, Read, list[ListedLimit]]) -> None:
    made, path, read, _ = example
    within_the_page(read)
    assert fonts_without_file(path) == []
    again = path.with_name("again.pdf")
    write_worksheet(made, again)
    assert again.read_bytes() == path.read_bytes()


def within_the_page(read: Read) -> None:
    for page, boxes in enumerate(read.boxes, start=1):
        assert not overlapping(boxes), f"page {page}"
        for left, bottom, right, top in boxes:
            assert left >= 53 and right <= 612 - 53 and bottom >= 18 and top <= 780, f"page {page}"
        assert f"Page {page} of {len(read.pages)}" in read.pages[page - 1]


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_qpdf_finds_no_fault(example: tuple[Checked, Path, Read, list[ListedLimit]]) -> None:
    run = subprocess.run(["qpdf", "--check", str(example[1])], capture_output=True, text=True, check=False)
    assert run.returncode == 0 and "WARNING" not in run.stdout + run.stderr, run.stdout + run.stderr


def test_the_command(tmp_path: Path) -> None:
    target = tmp_path / "sheet.pdf"
    command = [
        "worksheet",
        str(EXAMPLE),
        "--output",
        str(target),
    ]
    run = run_tool(*command)
    assert run.returncode == 0 and f"Wrote {target}" in run.stdout, run.stderr
    assert "Worksheet of limits" in read_back(target).pages[0]
