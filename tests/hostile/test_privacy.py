"""No command reaches the network or starts another program, and none writes where it was not told to."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from compliance import cli
from tests.conftest import EXAMPLE
from tests.hostile.laying_out import SOUND, write
from tests.hostile.running import Host, environment, listing

NAMED = {*cli.COMMANDS, "rules"}
BARRED = Path(__file__).parent / "barred"

# For every command: its arguments, the code it leaves with, and the files it may make or change.
COMMANDS: dict[str, tuple[tuple[str, ...], int, tuple[str, ...]]] = {
    "check": (("p",), 1, ()),
    "submittal": (("p", "--output", "o.pdf"), 0, ("o.pdf", "p/issued")),
    "compare": (("p", "A"), 0, ()),
    "explain": (("p", "W1", "wall-thickness-least"), 0, ()),
    "example": (("new",), 0, ("new",)),
    "blend": (("p",), 0, ()),
    "plan": (("p", "--output", "o.svg"), 0, ("o.svg",)),
    "desk": (("answers.yaml", "--no-open"), 2, ()),  # what it does when open, --phone too: tests/desk
    "stage": (("p", "completion"), 1, ("p/project.yaml",)),
    "counter": (("p", "--output", "o.pdf"), 0, ("o.pdf",)),
    "brief": (("p", "--output", "o.pdf"), 0, ("o.pdf",)),
    "inspection": (("p", "--output", "o.pdf"), 0, ("o.pdf",)),
    "checklist": (("p", "--format", "xlsx", "--output", "o.xlsx"), 0, ("o.xlsx",)),
    "lab-request": (("p", "--output", "o.pdf"), 0, ("o.pdf",)),
    "earth": (("p", "--output", "o.pdf"), 0, ("o.pdf",)),
    "sheets": (("p", "--output", "o.pdf"), 0, ("o.pdf",)),
    "worksheet": (("p", "--output", "o.pdf"), 0, ("o.pdf",)),
    "limits": (("p",), 0, ()),
    "confirm": (
        ("p", "footing-depth", "minimum", "--value", "14 in", "--by", "A", "--where", "B", "--reason", "C"), 0,
        ("p/amendments.yaml", "p/project.yaml"),
    ),
    "accept": (
        ("p", "W6", "cob-practice/wall-height-to-thickness", "--by", "R. Pell", "--on", "2026-09-10",
         "--document", "Letter 12"),
        0,
        ("p/project.yaml",),
    ),
    "answer": (
        ("p", "restraint-details", "--yes", "--by", "A", "--on", "2026-09-10", "--evidence", "answers.yaml"), 0,
        ("p/project.yaml", "p/papers/answers.yaml"),
    ),
    "start": (("new", "--answers", "answers.yaml"), 0, ("new",)),
    "problem": (("measure-no-unit",), 0, ()),
    "mend": (("small",), 0, ()),
    "try": (("p", "W1.thickness=20 in"), 1, ()),
    "range": (("small", "W1"), 0, ()),
    "rules": (("list",), 0, ()),
}  # fmt: skip
THIN = SOUND.replace("16 in", "8 in")
"""A small project for the commands that try hundreds of changes; there are some to be found."""
ANSWERS = """\
name: Trial
place: Nowhere
rule_sets: cob-practice
units: us
length: 20 ft
width: 16 ft
height: 8 ft
thickness: 16 in
"""


def test_every_command_is_looked_at() -> None:
    assert set(COMMANDS) >= NAMED


@pytest.mark.parametrize("name", COMMANDS)
def test_reaches_nobody_and_writes_what_it_says(name: str, host: Host, tmp_path: Path) -> None:
    args, code, may_change = COMMANDS[name]
    shutil.copytree(EXAMPLE, tmp_path / "p")
    (tmp_path / "answers.yaml").write_text(ANSWERS, "utf-8")
    write(tmp_path / "small", {"project.yaml": THIN.encode()})
    before = listing(tmp_path)
    ran = host.run((name, *args), tmp_path, environment=environment(HOME=str(tmp_path / "home")), barred=True)
    if name not in NAMED and "No such command" in ran.err:
        pytest.skip("not a command of this version")
    assert "barred" not in ran.err, ran.err
    assert (ran.code, ran.traced) == (code, False), ran.err
    after = listing(tmp_path)
    changed = {path for path in after.keys() | before.keys() if after.get(path) != before.get(path)}
    assert all(path.startswith(may_change) for path in changed) if may_change else not changed, changed


def _barred(line: str) -> subprocess.CompletedProcess[bytes]:
    env = environment()
    env["PYTHONPATH"] = f"{BARRED}:{env['PYTHONPATH']}"
    return subprocess.run([sys.executable, "-c", line], env=env, capture_output=True, check=False)


def test_reaches_nobody_when_it_is_loaded() -> None:
    """The runs above begin with every module of the tool at hand and much worked out. Numpy, which pint takes where it
    is there and the tool does not need, opens a library of the system."""
    without = "import sys; sys.modules['numpy'] = None; "
    done = _barred(f"{without}from tests.hostile import host; host.load_all_modules(); host.warm_up()")
    assert (done.returncode, done.stderr) == (0, b"")


def test_the_bar_holds(tmp_path: Path) -> None:
    """A process that does reach out is ended: the tests above can fail."""
    for line in (
        "import socket; socket.socket()",
        "import subprocess; subprocess.run(['true'])",
        "import os; os.system('true')",
    ):
        done = _barred(line)
        assert done.returncode == 97
        assert b"barred" in done.stderr
