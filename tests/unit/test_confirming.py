"""Confirming a limit leaves the user's file as it was, but for the new entry."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from typer.testing import CliRunner

from compliance.checking import check_folder
from compliance.cli import app
from compliance.editing.limit_confirmation import Confirmation, ConfirmError, confirm_limits
from compliance.findings import Standing
from compliance.problems import ProblemsFound
from tests.conftest import RULES, WALLS, Write
from tests.unit.test_amendments import OPEN_RULE, TABLE_RULE

DAY = date(2026, 5, 14)
USE = WALLS + "amendments: [local.yaml]\n"
OWN = """\
# read at the counter   (keep this remark)
title: Ours

changes:
    - rule_set: trial   # the first
      rule: thick-enough
      limit: least
      value: 10 in
      standing: confirmed
      by: R. Pell
      on: 2026-01-05
      where: p. 3

# a last remark
"""


def said(rule: str, limit: str, value: str, **more: object) -> Confirmation:
    return Confirmation(rule, limit=limit, value=value, by="R. Pell", where='Table "2"', on=DAY, **more)  # type: ignore[arg-type]


def test_an_entry_is_added_and_all_else_stays(project: Write) -> None:
    folder = project(text=USE, rules=RULES + OPEN_RULE, files={"local.yaml": OWN})
    confirm_limits(folder, [said("height", "most", "9 ft")])
    text = (folder / "local.yaml").read_text(encoding="utf-8")
    head, tail = OWN.split("\n# a last remark")
    assert text.startswith(head.rstrip("\n") + "\n    - rule_set: trial\n      rule: height\n")
    assert text.endswith("\n# a last remark" + tail)
    limits = {limit.name: limit for one in check_folder(folder).findings for limit in one.limits}
    assert limits["most"].standing is Standing.CONFIRMED
    assert limits["most"].source == 'Table "2"'


def test_the_file_is_made_and_named_where_there_is_none(project: Write) -> None:
    folder = project(rules=RULES + OPEN_RULE)
    before = (folder / "project.yaml").read_text(encoding="utf-8")
    confirm_limits(folder, [said("height", "most", "9 ft")])
    after = (folder / "project.yaml").read_text(encoding="utf-8")
    assert after == before + "\namendments:\n  - amendments.yaml\n"
    assert check_folder(folder).all_meet


def test_line_ends_of_windows_stay(project: Write) -> None:
    folder = project(text=USE, rules=RULES + OPEN_RULE, files={"local.yaml": ""})
    (folder / "local.yaml").write_bytes(OWN.replace("\n", "\r\n").encode())
    confirm_limits(folder, [said("height", "most", "9 ft")])
    data = (folder / "local.yaml").read_bytes()
    assert data.count(b"\n") == data.count(b"\r\n")


def test_a_cell(project: Write) -> None:
    folder = project(rules=RULES + TABLE_RULE)
    confirm_limits(folder, [said("trial/tabled", "tallest", "9 ft", row=1)])
    assert "row: 1" in (folder / "amendments.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("confirmation", "error"),
    [
        (said("heigth", "most", "9 ft"), ConfirmError),
        (said("height", "most", "9 psi"), ProblemsFound),
        (said("height", "mast", "9 ft"), ProblemsFound),
        (said("thick-enough", "least", "2 in"), ProblemsFound),
    ],
)
def test_nothing_is_written_when_it_cannot_be_confirmed(
    project: Write, confirmation: Confirmation, error: type[Exception]
) -> None:
    folder = project(text=USE, rules=RULES + OPEN_RULE, files={"local.yaml": OWN})
    before = {path: path.read_bytes() for path in folder.iterdir()}
    with pytest.raises(error):
        confirm_limits(folder, [confirmation])
    assert {path: path.read_bytes() for path in folder.iterdir()} == before


def test_an_amendment_file_the_project_does_not_name_is_left_alone(project: Write) -> None:
    folder = project(rules=RULES + OPEN_RULE, files={"amendments.yaml": OWN})
    with pytest.raises(ConfirmError):
        confirm_limits(folder, [said("height", "most", "9 ft")])
    assert Path(folder / "amendments.yaml").read_text(encoding="utf-8") == OWN


WORDS_RULE = """\
  - id: straw
    title: Straw
    clause: T4
    about: mix
    when: needed
    limits:
      kinds: {value: open, kind: words, standing: open, read_in: "Table 4"}
      needed: {value: open, kind: yes-no, standing: open, read_in: "Table 4"}
    check: mix.straw in kinds
    say: Straw of a named kind.
"""


@pytest.mark.parametrize("kinds", ["wheat, plaster of paris", "[wheat, plaster of paris]", "plaster of paris,wheat"])
def test_several_words_and_a_yes(project: Write, kinds: str) -> None:
    folder = project(rules=RULES + WORDS_RULE)
    confirm_limits(folder, [said("straw", "kinds", kinds)])
    confirm_limits(folder, [said("straw", "needed", "yes")])
    (found,) = [one for one in check_folder(folder).findings if one.rule == "straw"]
    given = {limit.name: limit.value.value for limit in found.limits if limit.value}
    assert given == {"kinds": "plaster of paris, wheat", "needed": True}


def test_a_yes_or_no_is_no_word(project: Write) -> None:
    folder = project(rules=RULES + WORDS_RULE)
    with pytest.raises(ProblemsFound, match="amendment-kind"):
        confirm_limits(folder, [said("straw", "needed", "perhaps")])


def test_a_table_asks_for_its_cell(project: Write) -> None:
    folder = project(rules=RULES + TABLE_RULE)
    with pytest.raises(ConfirmError, match="--cell ROW,COLUMN"):
        confirm_limits(folder, [said("tabled", "tallest", "9 ft")])


@pytest.mark.parametrize(("cell", "code"), [("2", 0), ("2,1", 0), ("3", 2), ("second", 2), ("1,2", 2)])
def test_the_command_takes_a_cell_by_its_numbers(project: Write, cell: str, code: int) -> None:
    folder = project(rules=RULES + TABLE_RULE)
    given = ["tabled", "tallest", "--value", "9 ft", "--by", "R. Pell", "--where", "Table 3"]
    given += ["--reason", "read in the copy", "--authority", "County"]
    assert CliRunner().invoke(app, ["confirm", str(folder), *given, "--cell", cell]).exit_code == code


def test_limits_are_listed_as_confirm_takes_them(project: Write) -> None:
    folder = project(rules=RULES + OPEN_RULE)
    listed = CliRunner().invoke(app, ["limits", str(folder)]).stdout
    (line,) = [line for line in listed.splitlines() if "most: open" in line]
    rule, limit, _ = line.split()
    given = ["--value", "9 ft", "--by", "R. Pell", "--where", "Table 2"]
    assert CliRunner().invoke(app, ["confirm", str(folder), rule, limit.rstrip(":"), *given]).exit_code == 0
    after = CliRunner().invoke(app, ["limits", str(folder)]).stdout
    assert "most: open" not in after, "it is read"
    assert "shipped open" in after and "filled in as 9 ft" in after, "and what was done with it stays in sight"
