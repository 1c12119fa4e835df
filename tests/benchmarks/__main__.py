"""Prints one table of ratios, each measured side by side in one run.

    python -m tests.benchmarks [--rounds 7] [--quick]

Whole processes; `wall` is time on the clock and `cpu` that of the processors, both medians of runs taken in turn. The
ratios are those of processor time, so that others at work on the machine matter less; where they are of the clock, the
row says so. `--quick` leaves out what takes minutes.
"""

from __future__ import annotations

import argparse
import os
import pickle
import platform
import resource
import shutil
import statistics
import subprocess
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

import pypdf
import pytest

from compliance.checking import check_folder
from compliance.files.shipped import shipped
from compliance.reading.rule_files.rule_library import shipped_rule_sets
from tests.benchmarks import test_documents, test_lab_rows, test_rule_library
from tests.benchmarks.floors import BARE, CHECK_FLOOR, HELP_FLOOR, RENDER_FLOOR, ROOT, command, script
from tests.benchmarks.rows_of_rooms import write_rooms
from tests.benchmarks.spreadsheet import agreeing, printing, write_workbook
from tests.conftest import EXAMPLE

Taken = tuple[float, float]
"""Seconds on the clock and of the processors."""


def one_run(arguments: Sequence[str]) -> Taken:
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run(arguments, capture_output=True, env=environment, check=False)
    wall, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    return wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def in_turn(commands: Sequence[Sequence[str]], rounds: int, warm: bool = True) -> list[Taken]:
    """Medians of each, run in turn; one run each before, which leaves compiled modules and a warm disk behind."""
    taken: list[list[Taken]] = [[] for _ in commands]
    for turn in range(rounds + warm):
        for place, one in enumerate(commands):
            found = one_run(one)
            if turn >= warm:
                taken[place].append(found)
    return [(statistics.median(one[0] for one in runs), statistics.median(one[1] for one in runs)) for runs in taken]


def row(what: str, ours: Taken | None, ratio: float, against: str) -> None:
    times = f"{ours[0]:8.2f} {ours[1]:8.2f}" if ours else " " * 17
    print(f"{what:42} {times} {ratio:8.2f}  {against}", flush=True)


def against_floors(rounds: int, folder: Path) -> None:
    pdf = str(folder / "submittal.pdf")
    asked = {
        "help": (HELP_FLOOR, command("--help")),
        "check of the example": (CHECK_FLOOR, command("check", str(EXAMPLE))),
        "submittal of the example": (RENDER_FLOOR, submittal(EXAMPLE, pdf)),
    }
    for what, (floor, ours) in asked.items():
        bare, least, taken = in_turn([script(BARE), script(floor), ours], rounds)
        row(
            what,
            taken,
            (taken[1] - bare[1]) / (least[1] - bare[1]),
            "times its floor, which draws nothing" if what.startswith("sub") else "times its floor",
        )


def against_reportlab(rounds: int, folder: Path) -> None:
    """The whole command, from the project folder on, against a process that sets its texts, tables and drawings, all
    ready, by reportlab alone; and how both grow with the building."""
    ready, pdf = folder / "content", str(folder / "submittal.pdf")
    with pytest.MonkeyPatch.context() as patch:
        ready.write_bytes(pickle.dumps(test_documents.content(check_folder(EXAMPLE), folder / "o.pdf", patch)))
    alone = script("import sys\nfrom tests.benchmarks.raw_reportlab import main\nmain(*sys.argv[1:])")
    bare, least, taken = in_turn(
        [script(BARE), [*alone, str(ready), str(folder / "raw.pdf")], submittal(EXAMPLE, pdf)], rounds
    )
    row("submittal of the example", taken, (taken[1] - bare[1]) / (least[1] - bare[1]), "times reportlab alone")
    few, many = folder / "rooms4", folder / "rooms40"
    write_rooms(few, 4)
    write_rooms(many, 40)
    small, large = in_turn([submittal(few, f"{few}.pdf"), submittal(many, f"{many}.pdf")], rounds)
    pages = [len(pypdf.PdfReader(f"{one}.pdf").pages) for one in (few, many)]
    row(
        "submittal of 40 walls",
        large,
        large[1] / small[1],
        f"times that of 4, for {pages[1] / pages[0]:.2f} times the pages",
    )


def submittal(project: Path, pdf: str) -> list[str]:
    return command("submittal", str(project), "--draft", "--force", "--output", pdf)


def against_parsers(folder: Path) -> None:
    paths = [shipped("rulesets") / f"{name}.yaml" for name in shipped_rule_sets()]
    ours, bare = test_rule_library.best_in_turn(
        lambda: test_rule_library.load(paths), lambda: test_rule_library.bare(paths)
    )
    row(f"loading {len(paths)} rule sets", (ours, ours), ours / bare, "times the bare parse of the same text")
    (folder / "rows" / "lab").mkdir(parents=True)
    test_lab_rows.write_csv(folder / "rows" / "lab" / "compression.csv")
    ours, bare = test_rule_library.best_in_turn(
        lambda: test_lab_rows.read(folder / "rows", {}), lambda: test_lab_rows.bare(folder / "rows")
    )
    row(f"{test_lab_rows.ROWS} lab rows", (ours, ours), ours / bare, "times csv.DictReader")


def by_walls(sizes: Sequence[int], rounds: int, folder: Path) -> None:
    """The cost of a wall over that of a building of four."""
    for walls in (4, *sizes):
        write_rooms(folder / f"w{walls}", walls)
    asked = {walls: command("check", str(folder / f"w{walls}"), "--quiet") for walls in (4, *sizes)}
    few, many = [walls for walls in asked if walls <= 1000], [walls for walls in asked if walls > 1000]
    taken: dict[int, Taken] = {}
    for group, often in ((few, 4 * rounds), (many, rounds)):  # what is short is uncertain, and run more often
        taken |= zip(group, in_turn([asked[walls] for walls in group], often, warm=False), strict=True)
    each = {walls: (taken[walls][1] - taken[4][1]) / (walls - 4) for walls in sizes}
    for walls in sizes:
        what = f"{walls} walls: {1e3 * each[walls]:.2f} ms a wall"
        row(what, taken[walls], each[walls] / each[100], "times a wall of 100")


def by_projects(counts: tuple[int, int], rounds: int, folder: Path) -> None:
    for count in counts:
        for number in range(count):
            write_rooms(folder / f"p{count}" / f"{number:04}", 8)
    few, many = (command("check", str(folder / f"p{count}"), "--each") for count in counts)
    small, large = in_turn([few, many], rounds, warm=False)
    row(f"{counts[0]} projects, check --each", small, 1.0, "")
    row(f"{counts[1]} projects, check --each", large, large[1] / small[1], f"times {counts[0]} projects")
    row("", None, large[0] / small[0], f"times {counts[0]} projects, on the clock")


def against_a_spreadsheet(rounds: int, folder: Path) -> None:
    if shutil.which("soffice") is None:
        print("spreadsheet route: left out, LibreOffice is not installed (apt-get install libreoffice-calc)")
        return
    book, pdf = folder / "checks.xlsx", folder / "submittal.pdf"
    ours = submittal(EXAMPLE, str(pdf))
    one_run(ours)
    wanted = write_workbook(check_folder(EXAMPLE), book, pdf)
    (folder / "again").mkdir()
    near, of = agreeing(book, folder / "again", wanted)
    theirs, mine = in_turn([printing(book, folder), ours], rounds)
    row("spreadsheet recalculated and printed", theirs, theirs[1] / mine[1], "times the submittal, by processor time")
    row("", None, theirs[0] / mine[0], "times the submittal, on the clock")
    print(f"{'':42} its worked lines: {of} formulas, {near} give what the tool gives")


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("--rounds", type=int, default=7)
    asked.add_argument("--quick", action="store_true")
    told = asked.parse_args()
    machine = f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}"
    print(f"{machine}, load {os.getloadavg()[0]:.1f}")
    print(f"{'':42} {'wall s':>8} {'cpu s':>8} {'ratio':>8}")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        against_floors(told.rounds, folder)
        against_reportlab(told.rounds, folder)
        against_parsers(folder)
        against_a_spreadsheet(max(told.rounds // 2, 1), folder)
        by_walls((10, 100, 1000) if told.quick else (10, 100, 1000, 10_000), max(told.rounds // 2, 1), folder)
        by_projects((10, 100) if told.quick else (100, 1000), 1, folder)


if __name__ == "__main__":
    main()
