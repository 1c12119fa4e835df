"""The commands as a user runs them: exit codes, what is printed, what is written."""

from __future__ import annotations

import csv
import io
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from compliance import cli
from tests.conftest import EXAMPLE, ROOT, RULES, WALLS, Write
from tests.running import run_tool

OUTCOMES = {"engineer", "revise", "missing", "confirm", "later", "meets", "not-applicable"}


run = run_tool


def test_check_leaves_with_zero_when_everything_meets(project: Write) -> None:
    done = run("check", project())
    assert (done.returncode, done.stderr) == (0, "")
    assert "1 meets" in done.stdout


def test_check_leaves_with_one_when_something_does_not(project: Write) -> None:
    done = run("check", project(text=WALLS.replace("16 in", "9 in")))
    assert done.returncode == 1
    assert "Not yet: one thing to change." in done.stdout and "thickness 9 in < 10 in minimum" in done.stdout


def test_check_leaves_with_two_when_a_file_is_wrong(project: Write) -> None:
    folder = project(text=WALLS.replace("16 in", "16"))
    done = run("check", folder)
    assert done.returncode == 2 and done.stdout == ""
    assert f"{folder}/project.yaml:6:" in done.stderr and "Traceback" not in done.stderr


def test_json_has_the_promised_fields(project: Write) -> None:
    data = json.loads(run("check", project(), "--format", "json").stdout)
    assert set(data) >= {"project", "rule_sets", "findings"}
    assert set(data["findings"][0]) >= {
        "rule", "title", "clause", "about", "subject", "outcome", "standing", "value", "limit", "margin", "steps",
        "say", "remedy", "missing", "at",
    }  # fmt: skip
    assert data["findings"][0]["at"] == {"file": "project.yaml", "line": 6}
    assert data["findings"][0]["value"] == {"text": "16 in", "number": 16.0, "unit": "in"}


def test_csv_cells_are_harmless_to_spreadsheets(project: Write) -> None:
    folder = project(rules=RULES.replace("title: Thickness", 'title: "=1+1"'))
    rows = list(csv.DictReader(io.StringIO(run("check", folder, "--format", "csv").stdout)))
    assert rows[0]["title"] == "'=1+1"


def test_explain_prints_the_calculation(project: Write) -> None:
    done = run("explain", project(), "W1", "thick-enough")
    assert done.returncode == 0
    assert "16 in ≥ 10 in" in done.stdout and "limit least: 10 in (254 mm), read" in done.stdout


@pytest.mark.parametrize(
    ("subject", "rule", "said"),
    [("W9", "thick-enough", "known: W1"), ("W1", "thick-enuff", "did you mean thick-enough?")],
)
def test_explain_names_the_nearest(project: Write, subject: str, rule: str, said: str) -> None:
    done = run("explain", project(), subject, rule)
    assert done.returncode == 2 and said in done.stderr


def test_example_is_copied_whole_or_not_at_all(tmp_path: Path) -> None:
    target = tmp_path / "my walls"
    assert run("example", target).returncode == 0
    assert (target / "project.yaml").read_bytes() == (EXAMPLE / "project.yaml").read_bytes()
    assert not (target / "issued").exists(), "what was issued belongs to the example"
    again = run("example", target)
    assert again.returncode == 2 and "already" in again.stderr
    assert run("example", tmp_path / "no" / "such").returncode == 2
    assert sorted(path.name for path in tmp_path.iterdir()) == ["my walls"]


def test_the_example_shows_every_outcome() -> None:
    done = run("check", EXAMPLE, "--format", "json")
    assert done.returncode == 1
    assert {finding["outcome"] for finding in json.loads(done.stdout)["findings"]} == OUTCOMES


def test_submittal_goes_to_out_or_where_told(project: Write, tmp_path: Path) -> None:
    folder = project()
    assert run("submittal", folder, "--draft", cwd=tmp_path).returncode == 0
    [made] = (tmp_path / "out").iterdir()
    assert sorted(path.name for path in made.iterdir()) == ["calculations.pdf", "drawings.pdf", "papers.pdf"]
    target = tmp_path / "a b" / "x.pdf"
    assert run("submittal", folder, "--draft", "--output", target, cwd=tmp_path).returncode == 0
    assert target.read_bytes().startswith(b"%PDF-1.7")


def test_nothing_is_written_when_a_file_is_wrong(project: Write, tmp_path: Path) -> None:
    folder = project(text=WALLS.replace("16 in", "16"))
    before = sorted(path for path in tmp_path.rglob("*"))
    assert run("submittal", folder, cwd=tmp_path).returncode == 2
    assert sorted(path for path in tmp_path.rglob("*")) == before


def test_a_check_starts_neither_reportlab_nor_numpy() -> None:
    code = (
        "import sys; from pathlib import Path; from compliance.checking import check_folder; import compliance.cli; "
        f"check_folder(Path({str(EXAMPLE)!r})); "
        "print([name for name in ('reportlab', 'numpy', 'pint', 'pypdf', 'scipy') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True)
    assert done.stdout.strip() == "[]"


def test_help_lists_every_command_once_in_the_order_of_the_job() -> None:
    """In five groups, each command with what it gives, not cut off."""
    text = run("--help").stdout
    places = [text.index(f"\n{title}:\n") for title in cli.GROUPS]
    assert len(places) == 5 and places == sorted(places)
    listed = re.findall(r"^  ([a-z][a-z-]*)  +(\S.*)$", text[places[0] :], re.MULTILINE)
    assert sorted(name for name, _ in listed) == sorted([*cli.COMMANDS, "rules"])
    assert all(len(says) > 20 for _, says in listed) and "..." not in text[places[0] :]
