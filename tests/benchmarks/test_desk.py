"""From a change to the new answer on the page, over a real port, warm. No test asserts a time.

python -m pytest tests/benchmarks/test_desk.py --benchmark-only -s
"""

from __future__ import annotations

import json
import shutil
import statistics
import time
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from compliance.checking import check_folder
from tests.benchmarks.rows_of_rooms import write_rooms
from tests.conftest import EXAMPLE
from tests.desk.served import Visitor, served
from tests.desk.test_editing import seen_of

_TIMES = 9


@pytest.mark.parametrize("walls", [7, 40, 100], ids=["example", "40-walls", "100-walls"])
def test_from_a_change_to_the_new_answer(benchmark: BenchmarkFixture, tmp_path: Path, walls: int) -> None:
    """The height of a wall is typed on a page: the form is sent, the file written, the project checked, and the page
    that the browser goes on to is there; then the plan is drawn. Beside it the time of the check alone."""
    folder = tmp_path / "house"
    if walls == 7:
        shutil.copytree(EXAMPLE, folder)
    else:
        write_rooms(folder, walls)
    check_folder(folder)
    alone: list[float] = []
    typed: list[float] = []
    drawn: list[float] = []
    used: list[float] = []

    def change() -> None:
        for number in range(_TIMES):
            fields = [("seen", seen_of(visitor.get("/papers"))), ("back", "/"),
                      ("path", json.dumps(["walls", "W1", "height"])), ("value", f"8 ft {number % 11} in")]  # fmt: skip
            start, cpu = time.perf_counter(), time.process_time()
            assert visitor.post("/edit", fields).status == 303
            page = visitor.get("/").text
            typed.append(time.perf_counter() - start)
            used.append(time.process_time() - cpu)
            assert "<h1" in page
            visitor.get("/picture/plan.svg")
            drawn.append(time.perf_counter() - start)
            start = time.perf_counter()
            check_folder(folder)
            alone.append(time.perf_counter() - start)

    with served(folder) as desk:
        visitor = Visitor(desk).let_in()
        visitor.get("/")
        benchmark.pedantic(change, rounds=1)
    shown = {"check alone": alone, "to the answer": typed, "processor, to the answer": used, "with the plan": drawn}
    medians = ", ".join(f"{name} {1e3 * statistics.median(times[2:]):.0f} ms" for name, times in shown.items())
    print(f"\n{len(check_folder(folder).project.walls)} walls, medians of {_TIMES - 2}: {medians}")
