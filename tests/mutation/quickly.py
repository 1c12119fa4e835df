"""Changes within functions, tried in copies of one process that has loaded and collected everything once.

Loading the package and collecting its tests costs more than most of the tests that call one function. So the functions
of the loaded module are given their changed code in a copy of the process, and only the tests that call them are run
there. What they do not notice is known no better than before: other tests may, and what a module works out while it
is loaded has not been changed.
"""

from __future__ import annotations

import gc
import importlib
import json
import os
import signal
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from types import CodeType, FunctionType

import pytest
from _pytest.main import pytest_runtestloop

from tests.mutation.changing import Mutant
from tests.mutation.reached import Ran, likely, path_of, run_tests

HANGS_AFTER = 60.0  # seconds of the processor, so that a busy machine makes nothing hang
_FAILED, _UNCLEAR = 1, 3

_Key = tuple[str, int]
_Items = dict[str, pytest.Item]


def tried_quickly(module: str, chosen: Sequence[Mutant], ran: Sequence[Ran]) -> list[str]:
    """For each change "caught", "hangs", or "unknown"."""
    if not chosen:
        return []
    with tempfile.TemporaryDirectory() as folder:
        kept = Path(folder) / "came.json"
        child = os.fork()
        if child == 0:
            try:
                run_tests(
                    dict.fromkeys(one.test.partition("::")[0] for one in ran), 40, _Trying(module, chosen, ran, kept)
                )
            finally:
                os._exit(0)
        os.waitpid(child, 0)
        return list(json.loads(kept.read_text("utf-8"))) if kept.exists() else ["unknown"] * len(chosen)


class _Trying:
    """A pytest plugin: tries the changes where pytest would run the tests collected."""

    def __init__(self, module: str, chosen: Sequence[Mutant], ran: Sequence[Ran], kept: Path) -> None:
        self._module, self._chosen, self._ran, self._kept = module, chosen, ran, kept
        self._file = path_of(module)
        self._sound: dict[tuple[str, ...], bool] = {}  # whether the tests pass where nothing is changed

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        importlib.import_module(self._module)
        functions = list(_functions_of(str(self._file)))
        items = {one.nodeid: one for one in session.items}
        gc.freeze()  # So that copies do not write into the memory they share.
        came = [self._came(session, items, functions, one) for one in self._chosen]
        self._kept.write_text(json.dumps(came), "utf-8")
        return True

    def _came(self, session: pytest.Session, items: _Items, functions: list[FunctionType], mutant: Mutant) -> str:
        tests = tuple(likely(self._ran, self._file, mutant.function_lines))
        session.items = [items[test] for test in tests if test in items]
        if not session.items:
            return "unknown"
        came = _in_a_copy(session, functions, dict(_codes(compile(mutant.tree, str(self._file), "exec"))))
        if came == "unknown":
            return came
        if tests not in self._sound:  # Here they are run in another order, without the other tests.
            self._sound[tests] = _in_a_copy(session, functions, {}) == "unknown"
        return came if self._sound[tests] else "unknown"


def _in_a_copy(session: pytest.Session, functions: Sequence[FunctionType], changed: dict[_Key, CodeType]) -> str:
    """How the tests of the session come out with the changed code, "unknown" where they pass."""
    child = os.fork()
    if child == 0:
        _run(session, functions, changed)
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        return "hangs"
    return "caught" if os.WEXITSTATUS(status) == _FAILED else "unknown"


def _run(session: pytest.Session, functions: Sequence[FunctionType], changed: dict[_Key, CodeType]) -> None:
    """Never returns."""
    code = _UNCLEAR
    try:
        signal.setitimer(signal.ITIMER_PROF, HANGS_AFTER)
        for function in functions:
            new = changed.get(_key(function.__code__))
            if new is not None and len(new.co_freevars) == len(function.__code__.co_freevars):
                function.__code__ = new
        try:
            pytest_runtestloop(session)
            code = _FAILED if session.testsfailed else 0
        except session.Failed:  # at the first that fails
            code = _FAILED
    finally:
        os._exit(code)


def _functions_of(file: str) -> Iterator[FunctionType]:
    for one in gc.get_objects():
        if isinstance(one, FunctionType) and one.__code__.co_filename == file:
            yield one


def _codes(code: CodeType) -> Iterator[tuple[_Key, CodeType]]:
    for one in code.co_consts:
        if isinstance(one, CodeType):
            yield _key(one), one
            yield from _codes(one)


def _key(code: CodeType) -> _Key:
    return code.co_qualname, code.co_firstlineno
