"""Helps the tests share: a copy of the example, and a small sound project on disk, built from text."""

from __future__ import annotations

import atexit
import gc
import os
import shutil
import signal
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from tests.tries import tries

settings.register_profile("patient", parent=settings.default, deadline=None, max_examples=tries(100))
settings.load_profile("patient")  # No test is about time.

ROOT = Path(__file__).parent.parent
CHECKOUT_EXAMPLE = ROOT / "example_project"
ROUND_EXAMPLE = ROOT / "example_round"
"""Read where it stands: nothing is issued of it."""


_SCRATCH: list[tuple[int, Path]] = []
"""Folders of this run, each with the process that made it."""


def _remove_scratch() -> None:
    """A fork leaves alone what the process made that it was forked from."""
    for owner, folder in _SCRATCH:
        if owner == os.getpid():
            shutil.rmtree(folder, ignore_errors=True)


atexit.register(_remove_scratch)


def pytest_unconfigure() -> None:
    """The processes that share a run out end without their exit handlers."""
    _remove_scratch()


def _keep_compiled_modules() -> None:
    """Where no compiled modules may be left in the tree, keeps them in a folder of the run.

    The tool is started some hundred times; compiling it anew each time would take longer than all that it does.
    """
    if sys.dont_write_bytecode:
        place = tempfile.mkdtemp(prefix="earthwall-compiled-")
        _SCRATCH.append((os.getpid(), Path(place)))
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        os.environ["PYTHONPYCACHEPREFIX"] = sys.pycache_prefix = place
        sys.dont_write_bytecode = False


_keep_compiled_modules()
gc.set_threshold(200_000, 20, 20)  # as in the tool itself: collecting among its modules takes a fifth of the run
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:  # as a shell leaves it for what it starts in the background
    signal.signal(signal.SIGINT, signal.default_int_handler)  # else no command started here could be interrupted


def _copy_example() -> Path:
    """A copy of the checkout's example, made once for each process and removed with it.

    Tests read the copy, so that nothing issued in the checkout can change what they find. Its path holds a blank, which
    every command must bear.
    """
    place = Path(tempfile.mkdtemp(prefix="earthwall tests "))
    _SCRATCH.append((os.getpid(), place))

    def issued_since(folder: str, names: list[str]) -> list[str]:
        return [name for name in names if name != "A.json"] if Path(folder).name == "issued" else []

    return Path(shutil.copytree(CHECKOUT_EXAMPLE, place / "example_project", ignore=issued_since))


EXAMPLE = _copy_example()

HEAD = """\
project: {name: Trial, date: 2026-12-30}
jurisdiction: {name: Nowhere, rule_sets: [rules.yaml]}
soils: {S1: {name: clay}}
mixes: {M1: {name: mix, parts: {S1: 1}}}
"""

# A rule set up to its rules.
RULE_SET = """\
rule_set: trial
title: Trial rules
edition: "2026"
jurisdiction: nowhere
material: cob
forms: [any]
status: practice
scope: trial
source: written for the tests
verify: verify locally
rules:
"""

RULES = (
    RULE_SET
    + """\
  - id: thick-enough
    title: Thickness
    clause: T1
    about: wall
    limits: {least: {value: 10 in, standing: read, source: trial}}
    check: wall.least_thickness >= least
    say: Thick enough.
"""
)

ATTESTED_RULE = """\
  - id: covered
    title: Covered tops
    clause: T2
    about: wall
    standing: read
    source: trial
    attest: {ask: Are the tops covered?, evidence: [photo]}
    say: Tops stay covered.
"""

WALLS = """\
walls:
  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in, mix: M1}
"""

Write = Callable[..., Path]


@pytest.fixture
def project(tmp_path: Path) -> Write:
    """Writes a project folder: `project(text_after_head, rules=..., files={name: text})` returns its path."""

    def write(text: str = WALLS, head: str = HEAD, rules: str = RULES, files: dict[str, str] | None = None) -> Path:
        folder = tmp_path / "trial"
        folder.mkdir(exist_ok=True)
        (folder / "project.yaml").write_text(head + text, encoding="utf-8")
        (folder / "rules.yaml").write_text(rules, encoding="utf-8")
        for name, content in (files or {}).items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(content, encoding="utf-8")
        return folder

    return write


def _state(folder: Path) -> dict[str, tuple[int, int]]:
    """Size and time of change of everything below a folder."""
    found = {path.relative_to(folder).as_posix(): path.stat() for path in folder.rglob("*")}
    return {name: (stat.st_size, stat.st_mtime_ns) for name, stat in found.items()}


@pytest.fixture(scope="session", autouse=True)
def _examples_stay_as_they_are() -> Iterator[None]:
    """No test writes into the example of the checkout, nor into the copy that others read."""
    before = {folder: _state(folder) for folder in (CHECKOUT_EXAMPLE, EXAMPLE)}
    yield
    for folder, state in before.items():
        assert _state(folder) == state, f"{folder} changed while the tests ran"


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """How many processes `-n auto` means: one for each processor this run may use, none beside its own where tests are
    named on the command line."""
    if config.args_source is pytest.Config.ArgsSource.ARGS:
        return 0
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
