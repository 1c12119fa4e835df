"""Which tests call which functions of the package, so that a change is tried first with those that can notice it."""

from __future__ import annotations

import json
import os
import sys
import tempfile
from collections.abc import Collection, Sequence
from pathlib import Path
from types import CodeType, FrameType
from typing import Any, NamedTuple

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = f"{ROOT / 'compliance'}{os.sep}"


def path_of(module: str) -> Path:
    return ROOT / f"{module.replace('.', '/')}.py"


class Ran(NamedTuple):
    """A test, how long it took, and the functions it called: file and first line of each."""

    test: str
    seconds: float
    called: frozenset[tuple[str, int]]


class Recorder:
    """A pytest plugin. Looks at calls alone, so that hypothesis keeps its own tracing."""

    def __init__(self) -> None:
        self.ran: dict[str, tuple[float, set[tuple[str, int]]]] = {}
        self._codes: dict[int, CodeType] = {}

    def pytest_runtest_logstart(self) -> None:
        self._codes = {}
        sys.setprofile(self._called)

    def _called(self, frame: FrameType, event: str, argument: object) -> None:
        if event == "call":
            self._codes[id(frame.f_code)] = frame.f_code

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        seconds, called = self.ran.setdefault(report.nodeid, (0.0, set()))
        codes = list(self._codes.values())  # a copy, for what follows is called, too
        called |= {(one.co_filename, one.co_firstlineno) for one in codes if one.co_filename.startswith(PACKAGE)}
        self.ran[report.nodeid] = (seconds + report.duration, called)

    def pytest_runtest_logfinish(self) -> None:
        sys.setprofile(None)


class Chosen:
    """A pytest plugin that leaves all tests out but those chosen, in the order chosen."""

    def __init__(self, tests: Sequence[str]) -> None:
        self._place = {test: place for place, test in enumerate(tests)}

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted((one for one in items if one.nodeid in self._place), key=lambda one: self._place[one.nodeid])


def run_tests(files: Collection[str], examples: int, *plugins: object) -> int:
    """Runs tests in this process, with so many examples for each of hypothesis, and says nothing."""
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nowhere, stream)
    from hypothesis import HealthCheck, settings

    settings.register_profile(
        "mutation", max_examples=examples, derandomize=True, deadline=None, database=None,
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    settings.load_profile("mutation")
    os.chdir(ROOT)
    plain = "--assert=plain"  # else pytest itself loads modules that are called test_*, unchanged, from the disk
    alone = ("-n", "0")  # in this very process, whatever pyproject.toml says
    return int(pytest.main(["-x", "-q", plain, "-p", "no:cacheprovider", *alone, *files], plugins=list(plugins)))


def record(files: Collection[str]) -> list[Ran]:
    """Every test of the files, run in a process of its own. Raises RuntimeError where one fails."""
    with tempfile.TemporaryDirectory() as folder:
        kept = Path(folder) / "ran.json"
        child = os.fork()
        if child == 0:
            code = 3
            try:
                recorder = Recorder()
                code = run_tests(files, 5, recorder)
                kept.write_text(json.dumps([[test, *_plain(one)] for test, one in recorder.ran.items()]), "utf-8")
            finally:
                os._exit(code)
        if os.waitpid(child, 0)[1]:
            raise RuntimeError(f"the tests fail before anything is changed: {' '.join(files)}")
        ran: list[list[Any]] = json.loads(kept.read_text("utf-8"))
    return [Ran(test, seconds, frozenset((file, line) for file, line in called)) for test, seconds, called in ran]


def _plain(one: tuple[float, set[tuple[str, int]]]) -> list[Any]:
    return [one[0], sorted(one[1])]


def likely(ran: Sequence[Ran], file: Path, lines: range | None) -> list[str]:
    """The tests that call a function which begins within the lines, quick ones first; none where lines is None."""
    if lines is None:
        return []
    able = [one for one in ran if any(name == str(file) and line in lines for name, line in one.called)]
    return [one.test for one in sorted(able, key=lambda one: one.seconds)]
