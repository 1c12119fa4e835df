"""Tests of the mutation command itself, run by `python -m tests.mutation --bookkeeping` and not by default.

Each kind of change is made, one at a time; the lists of modules and survivors fit the code; a change of the code is
noticed by its tests.
"""

from __future__ import annotations

import subprocess
import sys

from tests.mutation.changing import mutants
from tests.mutation.modules import MODULES
from tests.mutation.reached import ROOT, Ran, likely, path_of
from tests.mutation.survivors import stale, survivors

SOURCE = '''\
"""Text."""
LEAST = 0.5


def f(a: int, b: float = 1.0) -> bool:
    """Text with 3 in it."""
    if not a:
        return True
    return min(a + 2, b) <= LEAST and a in (1, 2)
'''
EXPECTED = [
    ("0.5", "0.55"), ("1.0", "1.1"), ("not a", "not not a"), ("not a", "a"), ("True", "False"),
    ("min(a + 2, b) <= LEAST", "min(a + 2, b) < LEAST"), ("min(a + 2, b) <= LEAST", "min(a + 2, b) >= LEAST"),
    ("min(a + 2, b) <= LEAST and a in (1, 2)", "min(a + 2, b) <= LEAST or a in (1, 2)"),
    ("min(a + 2, b)", "max(a + 2, b)"), ("a + 2", "a - 2"), ("2", "3"), ("a in (1, 2)", "a not in (1, 2)"),
    ("1", "2"), ("2", "3"),
]  # fmt: skip


def test_every_kind_of_change() -> None:
    found = [(one.before, one.after) for one in mutants(SOURCE)]
    assert sorted(found) == sorted(EXPECTED)


def test_one_change_at_a_time() -> None:
    import ast

    plain = ast.unparse(ast.parse(SOURCE)).splitlines()
    for one in mutants(SOURCE):
        changed = ast.unparse(one.tree).splitlines()
        assert len(changed) == len(plain)
        assert sum(before != after for before, after in zip(plain, changed, strict=True)) == 1


def test_every_module_and_test_is_there() -> None:
    for module, tests in MODULES.items():
        assert path_of(module).is_file(), module
        assert all((ROOT / test).is_file() for test in tests), module


def test_every_listed_survivor_is_a_change_of_the_code_as_it_is() -> None:
    assert set(survivors()) <= set(MODULES)
    assert [slip for module in survivors() for slip in stale(module)] == []


def test_a_stale_survivor_is_named() -> None:
    """Neither a change the code no longer offers, nor one listed twice, nor a bare reason goes unseen."""
    name = "compliance.units.grammar"
    offered = next(mutants(path_of(name).read_text("utf-8"))).says
    reason = "a reason long enough to say why nothing changes"
    assert stale(name, {reason: [offered]}) == []
    assert stale(name, {reason: ["gone: 1 -> 2"]}) == [f"{name}: not a change of this module: gone: 1 -> 2"]
    assert stale(name, {reason: [offered, offered]}) == [f"{name}: listed twice: {offered}"]
    assert stale(name, {"short": [offered]}) == [f"{name}: a reason that says too little: short"]


def test_functions_are_named_with_their_lines() -> None:
    inner = "        def g() -> int:\n            return 1\n"
    source = f"class A:\n    @cache\n    def f(self) -> int:\n{inner}        return 2\n"
    assert [(one.says, one.function_lines) for one in mutants(source)] == [
        ("A.f: 1 -> 2", range(2, 7)),
        ("A.f: 2 -> 3", range(2, 7)),
    ]


def test_likely_tests_are_those_that_call_the_function_quick_ones_first() -> None:
    file = path_of("compliance.units.reach")
    ran = [
        Ran("slow", 2.0, frozenset({(str(file), 12)})),
        Ran("quick", 1.0, frozenset({(str(file), 12), ("other", 1)})),
        Ran("elsewhere", 0.1, frozenset({("other", 12), (str(file), 30)})),
    ]
    assert likely(ran, file, range(10, 20)) == ["quick", "slow"]
    assert likely(ran, file, None) == []


def test_changes_are_noticed() -> None:
    """The whole way, for a few changes of a small module."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.mutation", "compliance.units.grammar", "--most", "2"],
        cwd=ROOT, capture_output=True, text=True, timeout=300, check=False,
    )  # fmt: skip
    assert "2 of" in done.stdout and "caught" in done.stdout, done.stderr
    assert done.returncode in (0, 1), done.stderr


def test_a_change_of_a_module_called_like_a_test_is_noticed() -> None:
    """pytest loads such modules itself where it rewrites assertions, and then nothing is changed."""
    tried = """\
from tests.mutation.__main__ import noticed
from tests.mutation.changing import mutants
from tests.mutation.reached import Ran, path_of

name, says = "compliance.judging.test_sets", "judge_test: sets -> not sets"
test = "tests/unit/test_aspect_and_weight.py::test_a_specimen_of_unknown_height_waits"
change = next(one for one in mutants(path_of(name).read_text("utf-8")) if one.says == says)
print(noticed(name, change, [Ran(test, 0.0, frozenset())]))
"""
    done = subprocess.run(
        [sys.executable, "-c", tried], cwd=ROOT, capture_output=True, text=True, timeout=300, check=False
    )
    assert done.stdout == "caught\n", done.stderr


def test_changes_of_functions_tried_quickly() -> None:
    """One is caught by a test that calls the function; where no test is known to call it, none is run."""
    tried = """\
from tests.mutation.changing import mutants
from tests.mutation.quickly import tried_quickly
from tests.mutation.reached import path_of, record

name = "compliance.units.grammar"
chosen = [one for one in mutants(path_of(name).read_text("utf-8")) if one.function == "_feet_and_inches"][:3]
ran = record(["tests/unit/test_measures.py"])
print(tried_quickly(name, chosen, ran))
print(tried_quickly(name, chosen, [one._replace(called=frozenset()) for one in ran]))
"""
    done = subprocess.run(
        [sys.executable, "-c", tried], cwd=ROOT, capture_output=True, text=True, timeout=300, check=False
    )
    assert done.stdout == f"{['caught'] * 3}\n{['unknown'] * 3}\n", done.stderr


def test_changes_that_read_alike_are_told_apart() -> None:
    assert [one.says for one in mutants("A = (0, 0)\nB = 0\n")] == [
        "module: 0 -> 1", "module: 0 -> 1 (place 2)", "module: 0 -> 1 (place 3)"
    ]  # fmt: skip
