"""Wherever limits are listed: the value that shipped and each change of it, by whom, on what day, where, and why."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from typer.testing import CliRunner

from compliance.checking import check_folder
from compliance.cli import app
from compliance.documents.counter.limits_worksheet import write_worksheet
from compliance.findings import Standing
from compliance.report.limits.limit_list import limit_list
from compliance.report.limits.limit_sheet import limit_sheet
from tests.conftest import RULES, WALLS, Write
from tests.documents.reading_back import read_back
from tests.unit.test_amendments import OPEN_RULE, TABLE_RULE

USE = WALLS + "amendments: [local.yaml]\n"
FIRST = (
    "  - {rule_set: trial, rule: thick-enough, limit: least, value: 12 in, standing: confirmed, by: R. Pell,"
    " on: 2026-01-03, where: page 3}\n"
)
THEN = (
    "  - {rule_set: trial, rule: thick-enough, limit: least, value: 11 in, standing: confirmed, by: M. Orr,"
    " on: 2026-01-05, where: page 4, authority: Ordinance 7, reason: The council lowered it}\n"
)
SAME = (
    "  - {rule_set: trial, rule: thick-enough, limit: least, value: 254 mm, standing: confirmed, by: R. Pell,"
    " on: 2026-01-03, where: page 3}\n"
)
LINES = (
    "shipped as 10 in (254 mm)",
    "changed from 10 in (254 mm) to 12 in (305 mm) by R. Pell on 2026-01-03; page 3",
    "changed from 12 in (305 mm) to 11 in (279 mm) by M. Orr on 2026-01-05; page 4; authority: Ordinance 7;"
    " reason: The council lowered it",
)


def amended(project: Write, changes: str, rules: str = RULES) -> Path:
    return project(text=USE, rules=rules, files={"local.yaml": changes})


def test_terminal_sheet_and_worksheet_show_each_change_in_order(project: Write, tmp_path: Path) -> None:
    """A limit that was changed is listed although it is confirmed."""
    rules = RULES.replace("status: practice", "status: code")
    checked = check_folder(amended(project, "changes:\n" + FIRST + THEN, rules))
    on_screen = limit_list(checked, all_limits=False)
    assert all(line in on_screen for line in LINES), on_screen
    places = [on_screen.index(line) for line in LINES]
    assert places == sorted(places)
    (row,) = csv.DictReader(io.StringIO(limit_sheet(checked, all_limits=False)))
    assert row["changes so far"] == " | ".join(LINES)
    write_worksheet(checked, tmp_path / "sheet.pdf")
    printed = " ".join(read_back(tmp_path / "sheet.pdf").text.split())
    assert all(line in printed for line in LINES)


def test_the_same_value_in_other_units_is_a_confirmation(project: Write) -> None:
    checked = check_folder(amended(project, "changes:\n" + SAME))
    assert [one.what for one in checked.amendments] == ["confirm"]
    assert "confirmed unchanged by R. Pell on 2026-01-03; page 3" in limit_list(checked, all_limits=True)
    assert limit_sheet(checked, all_limits=False).count("\n") == 1, "nothing is left to read"


def test_a_dropped_rule_is_listed_with_its_authority(project: Write) -> None:
    drop = (
        "drops:\n  - {rule_set: trial, rule: height, reason: covered by Ordinance 7, by: M. Orr, on: 2026-01-05,"
        " authority: City council}\n"
    )
    shown = limit_list(check_folder(amended(project, drop, RULES + OPEN_RULE)), all_limits=False)
    assert "trial/height: Height" in shown
    assert "dropped by M. Orr on 2026-01-05; authority: City council; reason: covered by Ordinance 7" in shown


def test_a_cell_shows_its_own_changes(project: Write) -> None:
    change = (
        "changes:\n  - {rule_set: trial, rule: tabled, limit: tallest, row: 2, value: 9 ft, standing: confirmed,"
        " by: R. Pell, on: 2026-01-03, where: page 3, authority: Ordinance 7, reason: The council lowered it}\n"
    )
    checked = check_folder(amended(project, change, RULES + TABLE_RULE))
    rows = [row for row in csv.DictReader(io.StringIO(limit_sheet(checked, all_limits=False))) if row["row"]]
    assert [bool(row["changes so far"]) for row in rows] == [False, True]
    (tabled,) = (limit for one in checked.findings for limit in one.limits if limit.name == "tallest")
    assert tabled.standing is Standing.CONFIRMED, "the wall rests on the second row alone"


CONFIRM = ("trial/thick-enough", "least", "--by", "R. Pell", "--on", "2026-01-03")


@pytest.mark.parametrize(
    ("value", "more", "code"),
    [
        ("12 in", ("--where", "p. 3", "--edition", "2009"), "amendment-edition"),
        ("12 in", ("--where", "p. 3", "--edition", "the counter copy"), "amendment-edition"),
        ("12 in", ("--where", "Code of 2009, p. 3"), "amendment-edition"),
        ("9 in", ("--where", "p. 3"), "amendment-reason"),
        ("9 in", ("--where", "p. 3", "--reason", "dry site"), "amendment-reason"),
        ("9 in", ("--where", "p. 3", "--authority", "County"), "amendment-reason"),
        ("9 in", ("--where", "p. 3", "--reason", ".", "--authority", "County"), "text-empty"),
        ("9 in", ("--where", "p. 3", "--reason", "dry site", "--authority", "-"), "text-empty"),
        ("12 in", ("--where", "...",), "text-empty"),
    ],
)  # fmt: skip
def test_what_confirm_refuses(project: Write, value: str, more: tuple[str, ...], code: str) -> None:
    folder = amended(project, "title: Local\n")
    before = (folder / "local.yaml").read_bytes()
    ran = CliRunner().invoke(app, ["confirm", str(folder), *CONFIRM, "--value", value, *more])
    assert (ran.exit_code, f"[{code}]" in ran.output) == (2, True), ran.output
    assert (folder / "local.yaml").read_bytes() == before


@pytest.mark.parametrize(
    ("value", "more"),
    [
        ("12 in", ("--where", "p. 3", "--edition", "edition of 2026")),
        ("12 in", ("--where", "Ordinance of 2009, p. 3", "--edition", "2026")),
        ("9 in", ("--where", "p. 3", "--reason", "dry site", "--authority", "County, Resolution 4")),
    ],
)
def test_what_confirm_takes(project: Write, value: str, more: tuple[str, ...]) -> None:
    folder = amended(project, "title: Local\n")
    ran = CliRunner().invoke(app, ["confirm", str(folder), *CONFIRM, "--value", value, *more])
    assert ran.exit_code == 0, ran.output


@pytest.mark.parametrize("value", ["80 ft", "1000000 ft", "0 ft", "-8 ft"])
def test_an_open_limit_does_not_take_any_value(project: Write, value: str) -> None:
    folder = amended(project, "title: Local\n", RULES + OPEN_RULE)
    options = ["--by", "R. Pell", "--on", "2026-01-03", "--where", "Table 2", f"--value={value}"]
    ran = CliRunner().invoke(app, ["confirm", str(folder), "trial/height", "most", *options])
    assert ran.exit_code == 2, ran.output
