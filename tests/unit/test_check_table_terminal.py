"""What every command owes a terminal: plain characters, light help with an example, completion, files left alone."""

from __future__ import annotations

import os
import shlex
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
import typer
from typer.main import get_command

from compliance.cli import app
from compliance.commands.common.shared import shown_in
from compliance.commands.common.shell_completion import complete_code, complete_rule, complete_subject, complete_wall
from compliance.commands.common.watching import watch_folder
from compliance.files.file_states import changed, looked_at
from compliance.output.files.write_targets import TargetError, allow_target
from tests.conftest import EXAMPLE, ROOT, WALLS, Write
from tests.each import for_each
from tests.running import run_tool


def commands() -> Iterator[tuple[str, Any]]:
    """Every command and command of a group, by its words."""
    for name, one in get_command(app).commands.items():  # type: ignore[attr-defined]
        inner = getattr(one, "commands", None)
        yield from ((f"{name} {sub}", command) for sub, command in inner.items()) if inner else ((name, one),)


def run(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "compliance", *arguments]
    return subprocess.run(
        command, capture_output=True, text=True, encoding="utf-8", check=False,
        env=os.environ | {"PYTHONPATH": str(ROOT), "COLUMNS": "80"} | environment,
    )  # fmt: skip


@for_each(["all"], lambda _: [(words, words, command) for words, command in commands()])
def test_help_ends_its_words_with_an_example_that_begins_with_the_command(words: str, command: Any) -> None:
    last = command.help.strip().splitlines()[-1]
    assert last.startswith(f"Example: earthwall {words}"), last


def test_help_loads_nothing_heavy() -> None:
    """But for what the library of commands loads itself: newer versions of it bring pydantic."""
    code = (
        "import sys\nfrom compliance.cli import app\n"
        "try:\n    app(['check', '--help'], prog_name='earthwall')\nexcept SystemExit:\n    pass\n"
        "heavy = ('pint', 'reportlab', 'yaml', 'pypdf', 'python_calamine', 'compliance.model', 'compliance.facts')\n"
        "print([name for name in heavy if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


@pytest.mark.parametrize(
    ("text", "encoding", "shown"),
    [
        ("σ ≤ 2 × 3²", "utf-8", "σ ≤ 2 × 3²"), ("σ ≤ 2 × 3²", "ascii", "sigma <= 2 x 32"), ("2 × 3", "cp1252", "2 × 3"),
        ("−5 °", "cp437", "-5 °"), ("naïve ≥", "cp1252", "naïve >="),
    ],
)  # fmt: skip
def test_plainer_characters_only_where_they_are_needed(text: str, encoding: str, shown: str) -> None:
    assert shown_in(text, encoding) == shown


def context(folder: object) -> typer.Context:
    return SimpleNamespace(params={"folder": folder})  # type: ignore[return-value]


def test_completion_offers_marks_rules_and_codes() -> None:
    assert complete_wall(context(EXAMPLE), "W") == ["W1", "W2", "W3", "W4", "W5", "W6", "W7"]
    assert "W3.N5" in complete_subject(context(EXAMPLE), "W3.") or "W3" in complete_subject(context(EXAMPLE), "W")
    assert {"M1", "M2"} <= set(complete_subject(context(EXAMPLE), "M"))
    assert "wall-height-to-thickness" in complete_rule(context(EXAMPLE), "wall-h")
    assert "measure-no-unit" in complete_code(context(EXAMPLE), "measure-n")


@pytest.mark.parametrize("folder", [None, "no/such/folder", 7, EXAMPLE / "project.yaml"])
def test_completion_never_fails(folder: object) -> None:
    for complete in (complete_wall, complete_subject, complete_rule):
        assert complete(context(folder), "W") == []


def test_the_shell_is_answered() -> None:
    environment = {
        "_EARTHWALL_COMPLETE": "complete_bash", "COMP_WORDS": f"earthwall range {shlex.quote(str(EXAMPLE))} W",
        "COMP_CWORD": "3",
    }  # fmt: skip
    done = run(**environment)
    assert "W3" in done.stdout.split() and done.stderr == ""


PDF = b"%PDF-1.7\n1 0 obj\n<< /Creator (earthwall) >>\nendobj\n"


def test_only_files_of_this_tool_are_replaced(tmp_path: Path) -> None:
    ours, theirs, text = tmp_path / "ours.pdf", tmp_path / "theirs.pdf", tmp_path / "notes.txt"
    ours.write_bytes(PDF)
    theirs.write_bytes(PDF.replace(b"earthwall", b"somebody"))
    text.write_bytes(b"/Creator (earthwall)")
    allow_target(tmp_path / "new.pdf")
    allow_target(ours)
    for path in (theirs, text):
        with pytest.raises(TargetError, match="--force"):
            allow_target(path)
        allow_target(path, force=True)
    for path in (tmp_path, tmp_path / "link.pdf"):
        if path.name == "link.pdf":
            path.symlink_to(tmp_path / "nowhere")
        with pytest.raises(TargetError, match="no regular file"):
            allow_target(path, force=True)


def test_a_submittal_replaces_its_own_file_and_no_other(project: Write, tmp_path: Path) -> None:
    folder = str(project())
    target = tmp_path / "x.pdf"
    target.write_bytes(b"mine")
    refused = run_tool("submittal", folder, "--draft", "--output", str(target))
    assert refused.returncode == 2 and "was not written by earthwall" in refused.stderr
    assert target.read_bytes() == b"mine"
    assert run_tool("submittal", folder, "--draft", "--output", str(target), "--force").returncode == 0
    assert run_tool("submittal", folder, "--draft", "--output", str(target)).returncode == 0
    assert target.read_bytes().startswith(b"%PDF-")


class Editor:
    """Stands for the pauses between two looks: does one thing at each, then presses Ctrl-C."""

    def __init__(self, *deeds: Any) -> None:
        self.deeds = list(deeds)

    def __call__(self, seconds: float) -> None:
        if not self.deeds:
            raise KeyboardInterrupt
        if deed := self.deeds.pop(0):
            deed()


def write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")
    stamp = path.stat().st_mtime_ns + 10_000_000
    os.utime(path, ns=(stamp, stamp))


def test_watching_checks_again_at_a_save_and_says_what_changed(project: Write) -> None:
    folder = project()
    path = folder / "project.yaml"
    text = path.read_text(encoding="utf-8")
    said: list[str] = []
    pauses = Editor(
        None, lambda: write(path, text.replace("16 in", "9 in")), None, lambda: write(path, text.replace("16 in", "9")),
        None, lambda: write(path, text), None,
    )  # fmt: skip
    code = watch_folder(folder, said.append, lambda: 100, pauses)
    whole = "".join(said)
    assert code == 0
    assert whole.count("saved: project.yaml") == 3
    assert whole.index("1 meets") < whole.index("Gets worse (1)") < whole.index("[measure-no-unit]")
    assert whole.index("[measure-no-unit]") < whole.index("Gets better (1)")


@pytest.mark.parametrize("more", [("--wall", "W1"), ("--quiet",), ("--format", "json"), ("--outcome", "revise")])
def test_watching_is_not_mixed_with_what_it_would_leave_out(more: tuple[str, ...]) -> None:
    done = run("check", str(EXAMPLE), "--watch", *more)
    assert done.returncode == 2 and "leave the other options out" in done.stderr and done.stdout == ""


def test_watching_waits_until_a_save_is_finished(project: Write) -> None:
    folder = project()
    path = folder / "project.yaml"
    text = path.read_text(encoding="utf-8")
    said: list[str] = []
    pauses = Editor(
        None, lambda: write(path, text[:40]), lambda: write(path, text.replace("16 in", "9 in")), None, None,
    )  # fmt: skip
    assert watch_folder(folder, said.append, lambda: 100, pauses) == 1
    assert "yaml-" not in "".join(said) and "field-missing" not in "".join(said)


def test_what_is_looked_at(project: Write) -> None:
    folder = project(text=WALLS, files={"lab/a.csv": "x", ".hidden/b": "x"})
    before = looked_at(folder)
    names = {path.relative_to(folder).as_posix() for path in before if path.is_relative_to(folder)}
    assert names == {"project.yaml", "rules.yaml", "lab/a.csv"}
    (folder / "lab" / "a.csv").unlink()
    (folder / "new.yaml").write_text("x", encoding="utf-8")
    assert changed(before, looked_at(folder), folder) == ["lab/a.csv", "new.yaml"]
