"""Commands against their floors, as ratios taken side by side in one run. No test asserts a time.

python -m pytest tests/benchmarks --benchmark-only -s
"""

from __future__ import annotations

from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from compliance.checking import check_folder
from tests.benchmarks.floors import BARE, CHECK_FLOOR, HELP_FLOOR, RENDER_FLOOR, command, script, side_by_side
from tests.benchmarks.rows_of_rooms import write_rooms
from tests.conftest import EXAMPLE


@pytest.mark.parametrize(
    ("name", "floor", "arguments"),
    [
        ("help", HELP_FLOOR, ("--help",)),
        ("check", CHECK_FLOOR, ("check", str(EXAMPLE))),
        ("submittal", RENDER_FLOOR, ("submittal", str(EXAMPLE), "--draft")),
    ],
)
def test_against_the_floor(
    benchmark: BenchmarkFixture, tmp_path: Path, name: str, floor: str, arguments: tuple[str, ...]
) -> None:
    """Whole processes over a bare interpreter start."""
    more = ("--output", str(tmp_path / "x.pdf")) if name == "submittal" else ()
    bare, least, ours = benchmark.pedantic(
        side_by_side, args=(script(BARE), script(floor), command(*arguments, *more)), rounds=1
    )
    print(
        f"\n{name}: {1e3 * (ours - bare):.0f} ms, floor {1e3 * (least - bare):.0f} ms, "
        f"ratio {(ours - bare) / (least - bare):.2f}"
    )


@pytest.mark.parametrize("walls", [10, 100, 1000, 10_000])
def test_walls(benchmark: BenchmarkFixture, tmp_path: Path, walls: int) -> None:
    """Cost of a wall, from ten to ten thousand."""
    write_rooms(tmp_path / "rooms", walls)
    checked = benchmark.pedantic(check_folder, args=(tmp_path / "rooms",), rounds=1)
    seconds = benchmark.stats.stats.mean
    print(f"\n{walls} walls: {seconds:.2f} s, {1e3 * seconds / walls:.2f} ms a wall, {len(checked.findings)} findings")
