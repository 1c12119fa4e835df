"""A building that cannot be is a named problem at its place, in every command that would calculate, and nothing else:
no traceback, no figure, no file. The example project with one line made impossible."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from compliance.checking import check_folder
from compliance.cli import app
from tests.conftest import EXAMPLE

RUN = "run: {from: [0 ft, 16 ft], to: [0 ft, 0 ft]}"  # of W4
CASES = {
    "opening-wider": ("walls.yaml", "start: 10 ft, width: 3 ft,", "start: 10 ft, width: 30 ft,"),
    "opening-outside": ("walls.yaml", "start: 17 ft, width: 2 ft 4 in", "start: 22 ft, width: 2 ft 4 in"),
    "wall-taper": ("walls.yaml", "thickness_top: 14 in", "thickness_top: 24 in"),
    "load-outside": ("walls.yaml", "PL1: {at: 4 ft,", "PL1: {at: 17 ft,"),
    "load-off-wall": ("project.yaml", "{wall: W1, tributary: 11 ft 1 in, eccentricity: 1 in}",
                      "{wall: W1, tributary: 11 ft 1 in, eccentricity: 8 in}"),
    "mark-unknown": ("project.yaml", "- {wall: W3, tributary", "- {wall: W33, tributary"),
    "buttress-outside": ("project.yaml", "attachments:\n", "buttresses:\n  BT1: {wall: W4, at: 17 ft, projection: "
                         "3 ft, width: 16 in, height: 8 ft}\n\nattachments:\n"),
    "stem-below-footing": ("ground.yaml", "thickness: 12 in\n    bottom: 24 in", "thickness: 60 in\n    bottom: 24 in"),
    "wall-line": ("walls.yaml", RUN, "run: {from: [0 ft, 16 ft], to: [0 ft, 15 ft 11 in]}"),
}  # fmt: skip
COMMANDS = (
    ["check", "{}"], ["brief", "{}", "--output", "{}/out.pdf"], ["submittal", "{}", "--output", "{}/out.pdf"],
    ["explain", "{}", "W3", "rocking"],
)  # fmt: skip
_FIGURE = re.compile(r"\d (psi|plf|psf|lbf)\b|margin|meets")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copytree(EXAMPLE, tmp_path / "building")
    return tmp_path / "building"


@pytest.mark.parametrize("code", CASES)
def test_it_is_a_named_problem_and_nothing_else(folder: Path, code: str) -> None:
    file, sound, impossible = CASES[code]
    text = (folder / file).read_text(encoding="utf-8")
    assert text.count(sound) == 1
    (folder / file).write_text(text.replace(sound, impossible), encoding="utf-8")
    for command in COMMANDS:
        done = CliRunner().invoke(app, [part.format(folder) for part in command])
        assert done.exit_code == 2 and not isinstance(done.exception, AssertionError), command
        assert re.search(rf"{file}:\d+:\d+: .*\[{code}\]", done.output), done.output
        told = "\n".join(line for line in done.output.splitlines() if not line.startswith(("    ", "  ")))
        assert "Traceback" not in done.output and not _FIGURE.search(told), told
        assert not (folder / "out.pdf").exists()


def test_a_wall_that_stands_on_nothing_has_no_figure_for_the_soil(folder: Path) -> None:
    """It is warned of at its place; what needs the footing is missing, and no load is said to arrive anywhere."""
    text = (folder / "walls.yaml").read_text(encoding="utf-8")
    (folder / "walls.yaml").write_text(text.replace("    footing: F1\n", "", 1), encoding="utf-8")
    made = check_folder(folder)
    warned = [one for one in made.warnings if one.code == "footing-missing"]
    assert {one.wrong.split()[0] for one in warned} == {"W1", "W2", "W3", "W4"}
    assert all(one.place.file == "walls.yaml" and one.place.line and one.place.column for one in warned)
    for wall in ("W1", "W2", "W3", "W4"):
        subject = made.facts.of("wall")[wall]
        for name in ("footing_weight", "soil_load", "soil_pressure", "footing_needed", "load_in", "load_out"):
            fact = subject.fact(f"wall.{name}")
            assert fact.value is None and ("walls", wall, "footing") in fact.missing, name
    balance = made.facts.of("project")["project"].fact("project.load_balance")
    assert balance.value is None and ("walls", "W1", "footing") in balance.missing
