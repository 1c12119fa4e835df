"""A bar where work lasts: only in a terminal, only after a while, and gone when the work is done."""

from __future__ import annotations

import io
import subprocess
import sys
import time
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.commands.common import progress
from compliance.commands.common.progress import Progress, bar_line
from tests.conftest import EXAMPLE, ROOT


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def drawn(monkeypatch: pytest.MonkeyPatch, work: float, after: float, stream: io.StringIO) -> str:
    monkeypatch.setattr(progress, "_AFTER", after)
    monkeypatch.setattr(progress, "_EVERY", 0.01)
    monkeypatch.setattr(sys, "stderr", stream)
    with Progress("checking") as bar:
        bar.at(1, 2)
        time.sleep(work)
    return stream.getvalue()


def test_work_that_lasts_shows_a_bar_and_takes_it_away(monkeypatch: pytest.MonkeyPatch) -> None:
    text = drawn(monkeypatch, 0.2, 0.01, Terminal())
    assert "\rchecking [############............]  50 %, 0 s" in text
    last = text.rpartition("s\r")[2]
    assert last.strip(" \r") == "" and last.endswith("\r") and len(last) > 40, "blanks over the last bar"
    assert "\n" not in text and "\x1b" not in text


def test_short_work_and_a_pipe_show_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    assert drawn(monkeypatch, 0.0, 30.0, Terminal()) == ""
    assert drawn(monkeypatch, 0.1, 0.01, io.StringIO()) == ""


def test_an_error_takes_the_bar_away_too(monkeypatch: pytest.MonkeyPatch) -> None:
    stream = Terminal()
    monkeypatch.setattr(progress, "_AFTER", 0.01)
    monkeypatch.setattr(sys, "stderr", stream)
    with pytest.raises(KeyboardInterrupt), Progress("checking"):
        time.sleep(0.1)
        raise KeyboardInterrupt
    assert stream.getvalue().endswith("\r")


@pytest.mark.parametrize(
    ("done", "of", "seconds", "shown"),
    [
        (0, 4, 1.2, "x [........................]   0 %, 1 s"),
        (4, 4, 2.0, "x [########################] 100 %, 2 s"),
        (9, 4, 2.0, "x [########################] 100 %, 2 s"),
        (0, 0, 0.0, "x [####....................] 0 s"),
        (0, 0, 4.0, "x [....................####] 4 s"),
    ],
)
def test_the_line(done: int, of: int, seconds: float, shown: str) -> None:
    assert bar_line("x", done, of, seconds) == shown
    assert shown.isascii()


def test_a_check_tells_how_many_judgements_are_made() -> None:
    heard: list[tuple[int, int]] = []
    checked = check_folder(EXAMPLE, progress=lambda done, of: heard.append((done, of)))
    count = sum(len(checked.facts.of(rule.about)) for rule_set in checked.rule_sets for rule in rule_set.rules)
    done = [one for one, _ in heard]
    assert {of for _, of in heard} == {count} and done == sorted(done) and done[-1] == count and len(done) > 100


def test_a_long_command_shows_it_in_a_terminal(tmp_path: Path) -> None:
    """The delay is shortened, for no test should need work of a second."""
    pexpect = pytest.importorskip("pexpect")
    code = (
        "import sys\nfrom compliance.commands.common import progress\nprogress._AFTER = progress._EVERY = 0.001\n"
        "from compliance.cli import app\n"
        f"app(['check', {str(EXAMPLE)!r}, '--quiet'], prog_name='earthwall')"
    )
    child = pexpect.spawn(sys.executable, ["-c", code], cwd=str(ROOT), encoding="utf-8", timeout=60)
    child.expect(pexpect.EOF)
    child.close()
    assert "checking [" in child.before and " %, " in child.before
    assert child.before.rpartition("\r")[2] == "\n" and "engineer, " in child.before
    piped = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    assert piped.stderr == "" and piped.stdout.count("\n") == 1
