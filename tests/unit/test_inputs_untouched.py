"""No command changes what a user has written, but for the two that are asked to; papers go to out/ or where told."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.main import get_command
from typer.testing import CliRunner

from compliance.cli import app
from tests.conftest import HEAD, RULES, WALLS, Write

SET = "test_sets: {T1: {kind: compression, mix: M1}}\n"
READING = {
    "check": (), "mend": (), "range": ("W1",), "try": ("W1.thickness=20 in",), "explain": ("W1", "thick-enough"),
    "limits": (), "blend": (), "compare": ("A",),
}  # fmt: skip
WRITING = (
    "counter", "inspection", "checklist", "brief", "lab-request", "worksheet", "submittal", "earth", "plan", "sheets",
)  # fmt: skip
ELSEWHERE = {"start", "answer", "stage", "example", "problem", "rules", "confirm", "accept", "desk"}
"""Those that take no project, that make a new one, or that are asked to write into one; of `desk` see tests/desk."""


def state(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_every_command_is_looked_at() -> None:
    names = set(get_command(app).commands)  # type: ignore[attr-defined]
    assert names == READING.keys() | set(WRITING) | ELSEWHERE


@pytest.fixture
def folder(project: Write) -> Path:
    return project(text=SET + WALLS.replace("16 in", "9 in"), rules=RULES, head=HEAD)


@pytest.mark.parametrize("name", READING)
def test_what_reads_writes_nothing(folder: Path, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(folder.parent)
    before = state(folder.parent)
    done = CliRunner().invoke(app, [name, str(folder), *READING[name]])
    assert done.exit_code in (0, 1, 2) and not (done.exception and not isinstance(done.exception, SystemExit))
    assert state(folder.parent) == before


@pytest.mark.parametrize("name", WRITING)
def test_a_paper_goes_to_out_and_leaves_the_project_alone(
    folder: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(folder.parent)
    before = state(folder)
    done = CliRunner().invoke(app, [name, str(folder)])
    assert not (done.exception and not isinstance(done.exception, SystemExit)), done.exception
    after = state(folder)
    kept = {path for path in after if path.startswith("issued/")}
    assert {path: data for path, data in after.items() if path not in kept} == before
    assert bool(kept) == (name == "submittal")
    made = {path.parts[0] for path in (one.relative_to(folder.parent) for one in folder.parent.rglob("*"))}
    assert made <= {folder.name, "out"}
    assert done.exit_code == 0 or name == "brief", done.output  # no wall of this project is for an engineer


@pytest.mark.parametrize("name", [name for name in WRITING if name != "brief"])
def test_a_file_of_somebody_else_is_not_replaced(folder: Path, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(folder.parent)
    target = folder.parent / "mine.pdf"
    target.write_bytes(b"mine")
    done = CliRunner().invoke(app, [name, str(folder), "--output", str(target)])
    assert done.exit_code == 2 and target.read_bytes() == b"mine"
