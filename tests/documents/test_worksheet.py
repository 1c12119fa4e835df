"""The worksheet: every limit once, least known first, with boxes of its own, and commands that do what they say."""

from __future__ import annotations

import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pypdf
import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.counter.limits_worksheet import confirm_command, write_worksheet
from compliance.documents.counter.worksheet_tables import table_of
from compliance.findings import Finding, Outcome, Standing
from compliance.record import replace
from compliance.report.limits.limit_list import ListedLimit, limit_text, limits_of_codes, limits_relied_on
from compliance.units import Writer
from tests.conftest import EXAMPLE
from tests.documents.buildings import checked, finding, limit_used
from tests.documents.reading_back import Read, fonts_without_file, one_line, overlapping, read_back

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> tuple[Checked, Path, Read, list[ListedLimit]]:
    made = check_folder(EXAMPLE)
    path = tmp_path_factory.mktemp("sheet") / "worksheet.pdf"
    write_worksheet(made, path, "my house")
    return made, path, read_back(path), limits_of_codes(made)


def test_every_limit_relied_on_is_on_it_once(example: tuple[Checked, Path, Read, list[ListedLimit]]) -> None:
    made, _, read, listed = example
    text = read.text
    for one in listed:
        command = one_line(confirm_command("my house", one.limit, table_of(made, one.limit) is not None))
        head = command.partition(" --")[0]
        assert len(re.findall(re.escape(head) + r"(?= --)", text)) == 1, head
    count = len(listed)
    assert f"{count} limits: " in text
    assert text.count('earthwall confirm "my house"') == count


def test_the_least_known_come_first(example: tuple[Checked, Path, Read, list[ListedLimit]]) -> None:
    _, _, read, listed = example
    there = [one for one in reversed(Standing) if any(each.limit.standing is one for each in listed)]
    titles = [title for level, title, _ in read.outline if level == 1]
    assert titles[: len(there)] == [one.value.capitalize() for one in there]
    places = [read.text.index(f"{one.limit.rule_set}/{one.limit.rule} {one.limit.name} ") for one in listed]
    assert places == sorted(places)


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
    cells = sum(len(row) for table in tables for row in table.cells)
    assert sum(re.search(r"/\d+,\d+$", name) is not None for name in fields) == cells > 0
    for kind, count in (("value", len(listed) - len(tables)), ("edition", len(listed)), ("initials", len(listed))):
        assert sum(name.endswith(f"/{kind}") for name in fields) == count
    assert {"reader", "copy", "day"} <= set(fields)
    assert all(field["/FT"] == "/Tx" for field in fields.values())


def test_tables_are_printed_with_every_row_and_column(
    example: tuple[Checked, Path, Read, list[ListedLimit]],
) -> None:
    made, _, read, listed = example
    part = read.text[read.text.index("Tables Rows and columns count from 1") :]
    tables = [table for one in listed if (table := table_of(made, one.limit))]
    for table in tables:
        for axis in (table.rows, table.columns):
            for number, entry in enumerate(axis.entries if axis else (), start=1):
                assert not isinstance(entry, str) or f"{number}: {entry}" in part
    entries = sum(len(table.rows.entries) + len(table.columns.entries if table.columns else (1,)) for table in tables)
    assert len(re.findall(r"(?<=\s)\d+: \S", part)) >= entries  # heads stand again on a second page


def test_the_command_of_an_open_limit_confirms_it(tmp_path: Path) -> None:
    """The command as printed, its dots filled in, run on a copy of the example: the limit is then confirmed."""
    folder = tmp_path / "my house"
    shutil.copytree(EXAMPLE, folder)
    listed = limits_relied_on(check_folder(folder).findings)
    one = next(each for each in listed if each.limit.rule == "plaster-thickness-most")
    assert one.limit.standing is Standing.OPEN
    command = shlex.split(confirm_command(str(folder), one.limit, False))
    filled = {"--value": "2 in", "--by": "R. Pell"}
    for option, text in filled.items():
        command[command.index(option) + 1] = text
    run = subprocess.run(
        [sys.executable, "-m", "compliance", *command[1:]], capture_output=True, text=True, cwd=ROOT, check=False
    )
    assert run.returncode == 0, run.stderr
    again = {(each.limit.rule, each.limit.name): each.limit for each in limits_relied_on(check_folder(folder).findings)}
    now = again["plaster-thickness-most", one.limit.name]
    assert now.standing is Standing.CONFIRMED and now.value is not None
    assert now.value.value == pytest.approx(0.0508)


def test_the_command_of_a_table_confirms_one_cell(tmp_path: Path) -> None:
    folder = tmp_path / "house"
    shutil.copytree(EXAMPLE, folder)
    made = check_folder(folder)
    one = next(each for each in limits_of_codes(made) if each.limit.rule == "wall-height")
    table = table_of(made, one.limit)
    assert table is not None and table.cells[1][0] is None
    text = confirm_command(str(folder), one.limit, True).replace("ROW,COLUMN", "2,1")
    command = shlex.split(text)
    command[command.index("--value") + 1] = "8 ft"
    command[command.index("--by") + 1] = "R. Pell"
    run = subprocess.run(
        [sys.executable, "-m", "compliance", *command[1:]], capture_output=True, text=True, cwd=ROOT, check=False
    )
    assert run.returncode == 0, run.stderr
    after = table_of(check_folder(folder), one.limit)
    assert after is not None and after.cells[1][0] == pytest.approx(2.4384)


def test_words_of_a_folder_are_quoted_for_the_shell() -> None:
    text = confirm_command("a house; rm -rf ~", limit_used("rule-1"), False)
    assert shlex.split(text)[2] == "a house; rm -rf ~"
    assert shlex.split(text)[3:5] == ["test-rules/rule-1", "least"]
    costly = replace(limit_used("rule-1"), clause="the $HOME of `it`", read_in="")
    assert shlex.split(confirm_command("house", costly, False))[-1] == "the $HOME of `it`"
    assert "'the $HOME" in confirm_command("house", costly, False)
    apostrophe = replace(limit_used("rule-1"), clause="engineer's list", read_in="")
    assert confirm_command("house", apostrophe, False).endswith('--where "engineer\'s list"')


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
    assert "test-rules/rule-1 least" in text and "rule-2" not in text


def test_pages_are_sound(example: tuple[Checked, Path, Read, list[ListedLimit]]) -> None:
    made, path, read, _ = example
    within_the_page(read)
    assert fonts_without_file(path) == []
    again = path.with_name("again.pdf")
    write_worksheet(made, again, "my house")
    assert again.read_bytes() == path.read_bytes()


def within_the_page(read: Read) -> None:
    for page, boxes in enumerate(read.boxes, start=1):
        assert not overlapping(boxes), f"page {page}"
        for left, bottom, right, top in boxes:
            assert left >= 53 and right <= 612 - 53 and bottom >= 18 and top <= 780, f"page {page}"
        assert f"Page {page} of {len(read.pages)}" in read.pages[page - 1]


@pytest.mark.parametrize(
    "folder", ["h", "/home/a user/" + "buildings of the year/" * 12 + "house"], ids=["short", "long"]
)
def test_a_folder_of_any_name_stays_within_the_page(
    folder: str, example: tuple[Checked, Path, Read, list[ListedLimit]], tmp_path: Path
) -> None:
    write_worksheet(example[0], tmp_path / "sheet.pdf", folder)
    within_the_page(read_back(tmp_path / "sheet.pdf"))


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_qpdf_finds_no_fault(example: tuple[Checked, Path, Read, list[ListedLimit]]) -> None:
    run = subprocess.run(["qpdf", "--check", str(example[1])], capture_output=True, text=True, check=False)
    assert run.returncode == 0 and "WARNING" not in run.stdout + run.stderr, run.stdout + run.stderr


def test_the_command(tmp_path: Path) -> None:
    target = tmp_path / "sheet.pdf"
    command = [
        sys.executable,
        "-m",
        "compliance",
        "worksheet",
        str(EXAMPLE),
        "--output",
        str(target),
    ]
    run = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False)
    assert run.returncode == 0 and f"Wrote {target}" in run.stdout, run.stderr
    assert "Worksheet of limits" in read_back(target).pages[0]
