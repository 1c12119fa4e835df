"""What an official accepted outside a limit: how it prints, and what makes it lapse."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from compliance.checking import check_folder
from compliance.cli import app
from tests.conftest import HEAD, WALLS, Write
from tests.documents.reading_back import read_back

THIN = WALLS.replace("thickness: 16 in", "thickness: 9 in")
GIVEN = ["W1", "thick-enough", "--by", "R. Pell", "--on", "2026-01-02", "--document", "Letter 12"]


def invoke(*args: str) -> Result:
    return CliRunner().invoke(app, list(args))


def accepted(project: Write, *more: str) -> Path:
    folder = project(text=THIN)
    ran = invoke("accept", str(folder), *GIVEN, *more)
    assert ran.exit_code == 0, ran.output
    return folder


def change(folder: Path, name: str, old: str, new: str) -> None:
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_it_prints_as_accepted_and_does_not_meet(project: Write) -> None:
    folder = accepted(project, "--condition", "plastered within a year", "--until", "2027-01-01")
    assert (folder / "project.yaml").read_text(encoding="utf-8").startswith(HEAD + THIN.rstrip("\n"))
    ran = invoke("check", str(folder))
    assert ran.exit_code == 1
    assert "Accepted by the official, not met" in ran.stdout and "Stops you" not in ran.stdout
    assert "accepted by R. Pell on 2026-01-02" in " ".join(ran.stdout.split())
    by_wall = invoke("check", str(folder), "--walls").stdout
    assert "accepted by R. Pell, not meets" in by_wall.lower().replace("r. pell", "R. Pell")
    assert "Letter 12" in " ".join(ran.stdout.split()) and "plastered within a year" in " ".join(ran.stdout.split())
    (found,) = json.loads(invoke("check", str(folder), "--format", "json").stdout)["findings"]
    assert found["outcome"] == "revise" and found["verdict"] == "accepted by R. Pell, not meets"
    assert found["accepted"] == {
        "official": "R. Pell", "on": "2026-01-02", "document": "Letter 12", "condition": "plastered within a year",
        "until": "2027-01-01",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("name", "old", "new", "why"),
    [
        ("project.yaml", "thickness: 9 in", "thickness: 8 in", "the value was"),
        ("project.yaml", "thickness: 9 in", "thickness: 12 in", "the finding is meets now"),
        ("rules.yaml", "value: 10 in", "value: 11 in", "the limit was"),
        ("rules.yaml", 'edition: "2026"', 'edition: "2027"', "the edition was 2026 and is 2027"),
        ("rules.yaml", "clause: T1", "clause: T9", "the rule or what it rests on changed"),
        ("rules.yaml", "id: thick-enough", "id: thick", "there is no such finding now"),
        ("project.yaml", "date: 2026-12-30}", "date: 2027-01-03}", "it held until 2027-01-01"),
        ("project.yaml", "date: 2026-12-30}", "date: 2026-01-01}", "after the project"),
        ("project.yaml", "  W1: {run", "  W9: {run", "there is no such finding now"),
    ],
)
def test_it_lapses_by_itself(project: Write, name: str, old: str, new: str, why: str) -> None:
    folder = accepted(project, "--until", "2027-01-01")
    change(folder, name, old, new)
    checked = check_folder(folder)
    (warning,) = [one for one in checked.warnings if one.code == "acceptance-lapsed"]
    assert why in warning.wrong and warning.place.line > 0
    assert all(one.accepted is None for one in checked.findings)


def test_the_same_thickness_in_other_units_stays_accepted(project: Write) -> None:
    folder = accepted(project)
    change(folder, "project.yaml", "thickness: 9 in", "thickness: 228.6 mm")
    (found,) = check_folder(folder).findings
    assert found.accepted is not None


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (["--until", "2025-12-31"], "would not hold"),
        (["--until", "soon"], "write --on and --until"),
        (["--condition", "x" * 5000], "text-long"),
    ],
)
def test_what_is_not_entered(project: Write, more: list[str], says: str) -> None:
    folder = project(text=THIN)
    before = {path: path.read_bytes() for path in folder.iterdir()}
    ran = invoke("accept", str(folder), *GIVEN, *more)
    assert ran.exit_code == 2 and says in ran.output, ran.output
    assert {path: path.read_bytes() for path in folder.iterdir()} == before


def test_what_meets_or_is_accepted_is_not_accepted_again(project: Write) -> None:
    folder = accepted(project)
    assert "already" in invoke("accept", str(folder), *GIVEN).output
    assert "nothing to accept" in invoke("accept", str(project()), *GIVEN).output
    assert "there is no finding" in invoke("accept", str(folder), "W1", "gone", *GIVEN[2:]).output


def test_a_second_one_goes_below_the_first(project: Write) -> None:
    two = THIN + "  W2: {run: {from: [0 ft, 30 ft], to: [20 ft, 30 ft]}, height: 8 ft, thickness: 8 in, mix: M1}\n"
    folder = project(text=two)
    for wall in ("W1", "W2"):
        assert invoke("accept", str(folder), wall, *GIVEN[1:]).exit_code == 0
    assert [one.accepted is not None for one in check_folder(folder).findings] == [True, True]


def test_the_submittal_and_the_checklist_name_who_accepted_it(project: Write, tmp_path: Path) -> None:
    folder = accepted(project, "--condition", "plastered within a year")
    says = "accepted by R. Pell, not meets"
    paper = tmp_path / "submittal.pdf"
    assert invoke("submittal", str(folder), "--output", str(paper)).exit_code == 0
    printed = " ".join(read_back(paper).text.split())
    assert says in printed and "(Letter 12), not meets; condition: plastered within a year" in printed
    for kind in ("html", "csv"):
        sheet = tmp_path / f"checklist.{kind}"
        invoke("checklist", str(folder), "--format", kind, "--output", str(sheet))
        assert "accepted by R. Pell" in sheet.read_text(encoding="utf-8"), kind
