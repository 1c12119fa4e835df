"""The submittal against reportlab alone on equal content, in time and memory, and its growth with the building. No test
asserts a time.

python -m pytest tests/benchmarks/test_documents.py --benchmark-only -s
"""

from __future__ import annotations

import gc
import os
import pickle
import statistics
import subprocess
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pypdf
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.page.book import Book
from compliance.documents.submittal import bundle
from tests.benchmarks.floors import ROOT, script
from tests.benchmarks.raw_reportlab import content_of, write_raw
from tests.benchmarks.rows_of_rooms import write_rooms
from tests.conftest import EXAMPLE

ROUNDS = 3


def content(checked: Checked, path: Path, patch: pytest.MonkeyPatch) -> list[Any]:
    """What the submittal of `checked` holds, and the submittal written to `path`."""
    kept: list[Any] = []
    write = Book.write

    def keep(self: Book, story: Sequence[Any], target: Path) -> None:
        kept.extend(story)
        write(self, story, target)

    with patch.context() as within:
        within.setattr(Book, "write", keep)
        bundle.write_submittal(checked, path)
    return content_of(kept)


def seconds(run: Callable[[], object]) -> float:
    gc.collect()
    start = time.process_time()
    run()
    return time.process_time() - start


def test_against_reportlab_alone(benchmark: BenchmarkFixture, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same tables, paragraphs and drawings, in two passes with contents and bookmarks. Ours counts from the
    findings on, the working out of every printed line included; the other from texts that are ready."""
    blob = pickle.dumps(content(check_folder(EXAMPLE), tmp_path / "ours.pdf", monkeypatch))

    def in_turn() -> tuple[float, float]:
        ours, raw = [], []
        for _ in range(ROUNDS):
            checked = check_folder(EXAMPLE)
            ours.append(seconds(lambda of=checked: bundle.write_submittal(of, tmp_path / "ours.pdf")))  # type: ignore[misc]
            raw.append(seconds(lambda: write_raw(pickle.loads(blob), str(tmp_path / "raw.pdf"))))
        return statistics.median(ours), statistics.median(raw)

    ours, raw = benchmark.pedantic(in_turn, rounds=1)
    pages = [len(pypdf.PdfReader(tmp_path / name).pages) for name in ("ours.pdf", "raw.pdf")]
    print(
        f"\nsubmittal: {ours:.2f} s for {pages[0]} pages, reportlab alone {raw:.2f} s for {pages[1]}, "
        f"ratio {ours / raw:.2f}; a page {1e3 * ours / pages[0]:.1f} ms"
    )


def test_peak_memory(benchmark: BenchmarkFixture, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whole processes: the command with reading and checking, and reportlab alone with its content ready."""
    ready = tmp_path / "content"
    ready.write_bytes(pickle.dumps(content(check_folder(EXAMPLE), tmp_path / "ours.pdf", monkeypatch)))
    ours_is = peak_of("from compliance.__main__ import main; main()")
    raw_is = peak_of("from tests.benchmarks.raw_reportlab import main; main(*sys.argv[1:])")
    ours_is += ["submittal", str(EXAMPLE), "--draft", "--output", str(tmp_path / "o.pdf")]
    raw_is += [str(ready), str(tmp_path / "raw.pdf")]
    ours, raw = benchmark.pedantic(lambda: (peak(ours_is), peak(raw_is)), rounds=1)
    print(f"\npeak memory: submittal {ours:.0f} MB, reportlab alone {raw:.0f} MB, ratio {ours / raw:.2f}")


def peak_of(work: str) -> list[str]:
    """A process that does `work` and then prints the greatest resident memory it had, in kB."""
    told = "print([line.split()[1] for line in open('/proc/self/status') if line.startswith('VmHWM')][0])"
    return script(f"import sys\ntry:\n    {work}\nexcept SystemExit as end:\n    assert not end.code\n{told}")


def peak(arguments: list[str]) -> float:
    """In MB."""
    run = subprocess.run(
        arguments, capture_output=True, text=True, check=True, env=os.environ | {"PYTHONPATH": str(ROOT)}
    )
    return int(run.stdout.split()[-1]) / 1024


def test_growth_with_the_building(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """Seconds a page from four walls to forty: they grow no faster than the pages."""

    def each() -> list[tuple[int, int, float]]:
        found = []
        for walls in (4, 10, 20, 40):
            folder, target = tmp_path / f"rooms{walls}", tmp_path / f"{walls}.pdf"
            write_rooms(folder, walls)
            checked = check_folder(folder)
            taken = seconds(lambda of=checked, to=target: bundle.write_submittal(of, to))  # type: ignore[misc]
            found.append((walls, len(pypdf.PdfReader(target).pages), taken))
        return found

    print()
    for walls, pages, taken in benchmark.pedantic(each, rounds=1):
        print(f"{walls} walls: {pages} pages, {taken:.2f} s, {1e3 * taken / pages:.1f} ms a page")
