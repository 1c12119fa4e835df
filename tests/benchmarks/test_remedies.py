"""The search for remedies against one check, side by side in one run. No test asserts a time.

python -m pytest tests/benchmarks --benchmark-only -s
"""

from __future__ import annotations

import gc
import statistics
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.findings import Outcome
from compliance.remedies import remedies, tester_for
from tests.benchmarks.floors import command, side_by_side
from tests.conftest import EXAMPLE
from tests.unit.buildings_at_random import write_building

SEEDS = range(4)


@pytest.fixture
def collecting_as_a_command_does() -> Iterator[None]:
    before = gc.get_threshold()
    gc.set_threshold(200_000, 20, 20)
    yield
    gc.set_threshold(*before)


def ten_walls(folder: Path, seed: int) -> Path:
    return write_building(folder / f"ten-{seed}", seed, cross_walls=6)


def search(checked: Checked) -> int:
    """Remedies for everything that an outcome asks one for; how many there are."""
    tester = tester_for(checked)
    wanted = [one for one in checked.findings if one.outcome in (Outcome.REVISE, Outcome.ENGINEER)]
    return sum(len(remedies(tester, one)) for one in wanted)


def median_of(times: int, work: Callable[[], object]) -> float:
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return statistics.median(found)


@pytest.mark.parametrize("seed", [None, *SEEDS], ids=lambda seed: "example" if seed is None else f"ten-walls-{seed}")
def test_all_remedies_of_a_building(
    benchmark: BenchmarkFixture, tmp_path: Path, seed: int | None, collecting_as_a_command_does: None
) -> None:
    """Remedies for every finding of a building, in one process; the buildings break far more limits than one that
    somebody would draw."""
    folder = EXAMPLE if seed is None else ten_walls(tmp_path, seed)
    checked = check_folder(folder)
    once = median_of(5, lambda: check_folder(folder))
    found = benchmark.pedantic(search, args=(checked,), rounds=3)
    failing = sum(one.outcome in (Outcome.REVISE, Outcome.ENGINEER) for one in checked.findings)
    ratio = benchmark.stats.stats.median / once
    print(
        f"\n{folder.name}: {len(checked.project.walls)} walls, {failing} findings to mend, {found} remedies; "
        f"one check {1e3 * once:.0f} ms, the search {ratio:.1f} times that"
    )


@pytest.mark.parametrize("seed", SEEDS)
def test_mend_against_check_as_commands(benchmark: BenchmarkFixture, tmp_path: Path, seed: int) -> None:
    folder = str(ten_walls(tmp_path, seed))
    check, mend = benchmark.pedantic(
        side_by_side, args=(command("check", folder), command("mend", folder)), kwargs={"rounds": 3}, rounds=1
    )
    print(f"\nten walls, {seed}: check {1e3 * check:.0f} ms, mend {1e3 * mend:.0f} ms, ratio {mend / check:.1f}")
