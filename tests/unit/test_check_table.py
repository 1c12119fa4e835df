"""The check on the terminal: as wide as it is, in whole or in part; kept texts at 80 and 120 columns."""

from __future__ import annotations

import csv
import io
import json
import os
import sys
from pathlib import Path

import pytest

from compliance.commands.check import OutcomeName
from compliance.findings import Outcome
from tests.conftest import HEAD, ROOT, RULES, WALLS, Write
from tests.kept_texts import assert_kept
from tests.running import run_tool

MORE_RULES = (
    RULES
    + """\
  - id: height
    title: Height of load-bearing walls between lateral supports
    clause: T2
    about: wall
    limits: {most: {value: open, kind: length, standing: open, read_in: Table 2}}
    check: wall.height <= most
    say: Not too tall.
  - id: slender
    title: Slenderness
    clause: T3, where the wall carries a roof or a floor
    about: wall
    limits: {most: {value: 5, standing: recalled, source: trial}}
    check: wall.height_to_thickness <= most
    otherwise: engineer
    say: Not too slender.
    remedy: {say: "Thicken it or make it lower, or have an engineer design it as it stands.", change: wall.thickness}
  - id: exposed
    title: Rain
    clause: T4
    about: wall
    limits: {most: {value: 10 ft, standing: read, source: trial}}
    check: wall.exposed_height <= most
    say: Under the eaves.
  - id: dry
    title: Dry before the roof
    clause: T5
    about: project
    attest: {ask: Are the walls dry before the roof is put on them, evidence: [photo]}
    standing: read
    source: trial
    say: The walls are dry.
"""
)
TWO_WALLS = WALLS.replace("16 in", "9 in") + (
    "  W2: {name: a long name for a wall that is told apart by it, run: {from: [20 ft, 0 ft], to: [20 ft, 15 ft]},\n"
    "       height: 8 ft, thickness: 24 in, mix: M1}\n"
)


@pytest.fixture
def folder(project: Write) -> Path:
    return project(text=TWO_WALLS, rules=MORE_RULES)


run = run_tool


def in_terminal(width: int, *arguments: str | Path, encoding: str = "utf-8") -> tuple[str, int]:
    """What a command shows in a terminal of so many columns, and the code it leaves with."""
    pexpect = pytest.importorskip("pexpect")
    environment = {name: value for name, value in os.environ.items() if name not in ("COLUMNS", "LINES")}
    child = pexpect.spawn(
        sys.executable, ["-m", "compliance", *map(str, arguments)], encoding=encoding, timeout=60,
        env=environment | {"PYTHONPATH": str(ROOT), "PYTHONIOENCODING": encoding}, dimensions=(24, width),
    )  # fmt: skip
    child.expect(pexpect.EOF)
    child.close()
    return str(child.before).replace("\r\n", "\n"), int(child.exitstatus)


@pytest.mark.kept_text
@pytest.mark.parametrize("width", [80, 120])
def test_the_table_is_as_wide_as_the_terminal(folder: Path, width: int) -> None:
    text, code = in_terminal(width, "check", "--walls", folder)
    assert code == 1
    assert max(map(len, text.splitlines())) <= width
    assert "\x1b" not in text
    assert_kept(f"walls_{width}", text)


@pytest.mark.kept_text
def test_a_pipe_has_the_same_lines_as_a_terminal(folder: Path) -> None:
    assert_kept("walls_80", run("check", "--walls", folder, COLUMNS="80").stdout)


def test_what_several_walls_lack_is_said_once_and_with_its_wall_when_that_is_asked_for(folder: Path) -> None:
    whole = run("check", "--walls", folder).stdout
    assert whole.count("exposed_height") == 1
    assert "write: walls.W1.exposed_height in project.yaml; likewise for W2" in whole
    one = run("check", folder, "--wall", "W2").stdout
    assert "MISSING  W2: Rain" in one and "write: walls.W2.exposed_height in project.yaml" in one


def test_fields_of_others_are_told_with_all_they_are_lacked_by(project: Write) -> None:
    rules = RULES + (
        "  - {id: frost, title: Frost, clause: T9, about: wall, say: Deep., check: site.frost_depth <= most,\n"
        "     limits: {most: {value: 30 in, standing: read, source: trial}}}\n"
    )
    text = run("check", "--walls", project(text=TWO_WALLS, rules=rules)).stdout
    assert "write: site.frost_depth in project.yaml\n" in text and "likewise" not in text
    assert "about: W1, W2" in text


def findings(folder: Path, *arguments: str) -> list[dict[str, str]]:
    done = run("check", folder, "--format", "csv", *arguments)
    return list(csv.DictReader(io.StringIO(done.stdout)))


def test_filters_show_what_was_asked_for_and_leave_as_the_whole_does(folder: Path) -> None:
    everything = findings(folder)
    assert {one["outcome"] for one in findings(folder, "--outcome", "engineer")} == {"engineer"}
    assert {one["wall"] for one in findings(folder, "--wall", "W2")} == {"W2"}
    assert {one["rule"] for one in findings(folder, "--only", "slender", "--only", "trial/height")} == {
        "slender",
        "height",
    }
    both = findings(folder, "--wall", "W1", "--outcome", "revise", "--outcome", "confirm")
    assert [(one["rule"], one["outcome"]) for one in both] == [("thick-enough", "revise"), ("height", "confirm")]
    done = run("check", folder, "--wall", "W2", "--outcome", "meets")
    assert done.returncode == 1, "the rest of the project does not meet"
    assert f"shown: 2 of {len(everything)} findings: 2 meets" in done.stdout and "W1" not in done.stdout
    assert "W2: Thickness" in done.stdout, "what was asked for has its line"
    assert json.loads(run("check", folder, "--wall", "W2", "--format", "json").stdout)["tally"]["meets"] == 2


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--only", "slendre"), "did you mean"), (("--wall", "W22"), "did you mean W2?"),
        (("--outcome", "good"), "engineer"),
    ],
)  # fmt: skip
def test_a_filter_that_names_nothing_is_told(folder: Path, arguments: tuple[str, str], said: str) -> None:
    done = run("check", folder, *arguments)
    assert done.returncode == 2 and said in done.stderr and done.stdout == ""


def test_quiet_prints_one_line(folder: Path) -> None:
    done = run("check", folder, "--quiet")
    assert done.returncode == 1
    assert done.stdout.startswith("1 engineer, 1 revise, ") and done.stdout.count("\n") == 1


def test_the_outcomes_of_the_option_are_those_of_findings() -> None:
    assert [one.value for one in OutcomeName] == [one.value for one in Outcome]


def test_names_of_other_alphabets_are_shown_as_they_are(project: Write) -> None:
    folder = project(text=TWO_WALLS, rules=MORE_RULES, head=HEAD.replace("Trial", "Дом из глины 土"))
    assert "Дом из глины 土" in run("check", folder).stdout


@pytest.mark.parametrize("encoding", ["cp437", "cp1252", "ascii"])
def test_a_terminal_of_few_characters_gets_plainer_ones(folder: Path, encoding: str) -> None:
    text, code = in_terminal(100, "explain", folder, "W1", "slender", encoding=encoding)
    assert code == 0 and "Traceback" not in text
    assert ("<=" in text or "≤" in text) and "?" not in text
