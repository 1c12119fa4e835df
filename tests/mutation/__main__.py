"""`python -m tests.mutation` changes the modules one place at a time, and says which changes no test notices.

    python -m tests.mutation                                  # twenty changes of each module, drawn by --seed
    python -m tests.mutation compliance.rules.tables --most 0 # every change of one module
    python -m tests.mutation --bookkeeping                    # no changes: the lists and this command itself are tested

A change that a test notices is caught, as is one that makes the tests hang. What is left is a test that is missing, or
a change that makes no difference: those stand in `survivors.yaml` with the reason. The exit code is 1
where a change is left that does not stand there, or where `survivors.yaml` lists what the code no longer holds.
"""

from __future__ import annotations

import argparse
import importlib
import importlib.util
import os
import random
import signal
import subprocess
import sys
from collections import Counter
from collections.abc import Sequence
from functools import cache
from importlib.abc import Loader, MetaPathFinder
from importlib.machinery import ModuleSpec
from types import ModuleType

from tests.mutation.changing import Mutant, mutants
from tests.mutation.modules import MODULES
from tests.mutation.quickly import HANGS_AFTER, tried_quickly
from tests.mutation.reached import ROOT, Chosen, Ran, likely, path_of, record, run_tests
from tests.mutation.survivors import explained, stale

_HEAVY = ("numpy", "scipy.stats", "scipy.optimize", "pydantic", "yaml", "hypothesis")


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("modules", nargs="*", default=list(MODULES), metavar="MODULE")
    parser.add_argument("--most", type=int, default=20, help="changes of each module; 0 for all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only-likely", action="store_true", help="only tests that call the changed function: quicker")
    parser.add_argument("--bookkeeping", action="store_true", help="test the lists and this command, change nothing")
    asked = parser.parse_args()
    if asked.bookkeeping:
        own_tests = [sys.executable, "-m", "pytest", "-n", "0", "tests/mutation/bookkeeping.py"]
        return subprocess.run(own_tests, cwd=ROOT, check=False).returncode
    slips = [slip for name in asked.modules for slip in stale(name)]
    if slips:
        print("survivors.yaml no longer fits the code:", *slips, sep="\n  ")
        return 1
    for name in _HEAVY:  # Once, not for every change.
        importlib.import_module(name)
    total: Counter[str] = Counter()
    for name in asked.modules:
        total += tried(name, asked.most, asked.seed, asked.only_likely)
    print("all:", _said(total))
    return 1 if total["left"] else 0


def tried(name: str, most: int, seed: int, only_likely: bool) -> Counter[str]:
    """How the changes of one module came out; prints those that are left."""
    found = list(mutants(path_of(name).read_text("utf-8")))
    chosen = found if not most else random.Random(seed).sample(found, min(most, len(found)))
    chosen = sorted(chosen, key=lambda one: one.line)
    ran = _ran(MODULES[name])
    counts: Counter[str] = Counter()
    for mutant, came in zip(chosen, tried_quickly(name, chosen, ran), strict=True):
        if came == "unknown" and explained(name, mutant):
            came = "explained"
        elif came == "unknown":
            came = noticed(name, mutant, ran, only_likely)
        counts[came] += 1
        if came == "left":
            print(f"  {path_of(name).relative_to(ROOT)}:{mutant.line}: {mutant.says}", flush=True)
    print(f"{name}: {len(chosen)} of {len(found)} changes tried: {_said(counts)}", flush=True)
    return counts


def _said(counts: Counter[str]) -> str:
    return ", ".join(f"{count} {came}" for came, count in sorted(counts.items()))


@cache
def _ran(files: tuple[str, ...]) -> list[Ran]:
    return record(files)


def noticed(module: str, mutant: Mutant, ran: Sequence[Ran], only_likely: bool = False) -> str:
    """How it came out: "caught", "hangs", "left", or "unclear" where pytest itself broke.

    Tried first with the tests that call the changed function, then with all others.
    """
    first = likely(ran, path_of(module), mutant.function_lines)
    others = [one.test for one in ran if one.test not in set(first)]
    for tests in (first, [] if first and only_likely else others):
        if not tests:
            continue
        child = os.fork()
        if child == 0:
            _try(module, mutant, tests)
        _, status = os.waitpid(child, 0)
        if os.WIFSIGNALED(status):
            return "hangs"
        if os.WEXITSTATUS(status) in (1, 2, 4):  # a test failed, or could not be collected
            return "caught"
        if os.WEXITSTATUS(status):
            return "unclear"
    return "left"


class _Changed(MetaPathFinder, Loader):
    """Gives the changed module in place of the one on the disk."""

    def __init__(self, module: str, mutant: Mutant) -> None:
        self._module, self._mutant = module, mutant

    def find_spec(self, fullname: str, path: object, target: object = None) -> ModuleSpec | None:
        if fullname != self._module:
            return None
        return importlib.util.spec_from_file_location(fullname, path_of(fullname), loader=self)

    def exec_module(self, module: ModuleType) -> None:
        exec(compile(self._mutant.tree, str(path_of(self._module)), "exec"), module.__dict__)


def _try(module: str, mutant: Mutant, tests: Sequence[str]) -> None:
    """Never returns. Nothing of the package has been loaded by the process this was forked from."""
    code = 3
    try:
        signal.setitimer(signal.ITIMER_PROF, HANGS_AFTER)
        assert not any(name == "compliance" or name.startswith("compliance.") for name in sys.modules)
        sys.meta_path.insert(0, _Changed(module, mutant))
        files = dict.fromkeys(test.partition("::")[0] for test in tests)
        code = run_tests(list(files), 40, Chosen(tests))
    finally:
        os._exit(code)


if __name__ == "__main__":
    sys.dont_write_bytecode = True
    os.environ.setdefault("EARTHWALL_WHOLE", "1")  # what the lists say of a change was found with all examples
    sys.exit(main())
