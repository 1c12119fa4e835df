"""The floors that commands are measured against: the least a program with the same libraries must spend.

Each is run as a process of its own, in turn with what it is compared with, so that both see the same machine.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
UNITS = ROOT / "compliance" / "units" / "units.txt"

# pint imports numpy wherever it is installed; a user's machine has none, so the floor is taken without it.
_APP = """
import sys
sys.modules["numpy"] = None
import typer
app = typer.Typer(add_completion=False, pretty_exceptions_enable=False)
@app.command()
def one(name: str) -> None: ...
@app.command()
def two(name: str) -> None: ...
"""
BARE = "pass"
HELP_FLOOR = _APP + 'app(["--help"])'
CHECK_FLOOR = (
    _APP
    + "import pydantic, yaml, pint\n"
    + f'pint.UnitRegistry(open({str(UNITS)!r}, encoding="utf-8").read().splitlines(), cache_folder=None)\n'
    + 'app(["one", "x"])'
)
RENDER_FLOOR = CHECK_FLOOR.replace(
    "import pydantic", "import reportlab.platypus, reportlab.graphics.charts.barcharts, pydantic"
)


def command(*arguments: str) -> list[str]:
    return [sys.executable, "-m", "compliance", *arguments]


def script(text: str) -> list[str]:
    return [sys.executable, "-c", text]


def side_by_side(*commands: list[str], rounds: int = 9) -> list[float]:
    """Median seconds of each command, run in turn `rounds` times after one run each to warm the disk and to
    leave compiled modules behind, as an installed tool has them."""
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    times: list[list[float]] = [[] for _ in commands]
    for turn in range(rounds + 1):
        for place, one in enumerate(commands):
            start = time.perf_counter()
            subprocess.run(one, capture_output=True, env=environment, check=False)
            if turn:
                times[place].append(time.perf_counter() - start)
    return [statistics.median(one) for one in times]
