"""Loading the whole rule library beside the bare C parse of the same text, as it is and doubled. No time is asserted.

    python -m pytest tests/benchmarks/test_rule_library.py --benchmark-only -s

prints how many times as long as the bare parse loading takes (at most 3 is wanted), and as long as itself once every
rule stands there twice (at most double is wanted; the bare parse is printed beside it). Processor time without the
collector of garbage, as timeit takes it; in turn, best of several rounds.
"""

from __future__ import annotations

import gc
import re
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml

from compliance.files.shipped import shipped
from compliance.reading.rule_files.rule_library import read_rule_set, shipped_rule_sets
from compliance.rules.formulas.formula import parse

ROUNDS = 9


def doubled(text: str) -> str:
    """The rule set with every rule standing in it a second time under another id."""
    head, _, rules = text.partition("\nrules:\n")
    again = re.sub(r"^(  - id: )(\S{1,54})\S*$", r"\1\2-again", rules, flags=re.MULTILINE)
    return f"{head}\nrules:\n{rules.rstrip()}\n\n{again}"


@pytest.fixture(scope="module")
def libraries(tmp_path_factory: pytest.TempPathFactory) -> tuple[list[Path], list[Path]]:
    """The files of the library, and those of one with every rule twice."""
    once = [shipped("rulesets") / f"{name}.yaml" for name in shipped_rule_sets()]
    folder = tmp_path_factory.mktemp("doubled")
    twice = []
    for path in once:
        twice.append(folder / path.name)
        twice[-1].write_text(doubled(path.read_text(encoding="utf-8")), encoding="utf-8")
    return once, twice


def load(paths: list[Path]) -> int:
    """As a process does that has read no formula yet."""
    parse.cache_clear()
    return sum(len(read_rule_set(path, path.name).rules) for path in paths)


def bare(paths: list[Path]) -> int:
    return sum(len(yaml.load(path.read_text(encoding="utf-8"), yaml.CSafeLoader)["rules"]) for path in paths)


def best_in_turn(*works: Callable[[], object]) -> list[float]:
    """The least processor seconds of each, run one after the other so that all see the same machine."""
    least = [float("inf")] * len(works)
    for _ in range(ROUNDS):
        for place, work in enumerate(works):
            gc.collect()
            gc.disable()
            before = time.process_time()
            work()
            least[place] = min(least[place], time.process_time() - before)
            gc.enable()
    return least


def test_loading(benchmark: Any, libraries: tuple[list[Path], list[Path]]) -> None:
    once, twice = libraries
    assert benchmark(load, once) == bare(once)
    assert load(twice) == 2 * load(once) == bare(twice)
    ours, plain, ours_twice, plain_twice = best_in_turn(
        lambda: load(once), lambda: bare(once), lambda: load(twice), lambda: bare(twice)
    )
    size = sum(path.stat().st_size for path in once)
    print(
        f"\n{len(once)} rule sets, {load(once)} rules, {size / 1e3:.0f} kB: {1e3 * ours:.0f} ms, {ours / plain:.2f} "
        f"times the bare parse\ndoubled: {ours_twice / ours:.2f} times itself (the parse {plain_twice / plain:.2f} "
        f"times), {ours_twice / plain_twice:.2f} times the bare parse"
    )
