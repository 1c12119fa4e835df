"""The papers that commands write of the example."""

from __future__ import annotations

from contextlib import chdir
from pathlib import Path
from typing import Any

from typer.testing import CliRunner

from compliance.cli import app
from tests.conftest import EXAMPLE

COMMANDS = ("brief", "counter", "earth", "inspection", "lab-request", "plan", "sheets", "submittal", "worksheet")

Papers = dict[str, tuple[Path, list[Any]]]
"""By command: the file, and the parts it was made of."""


def write_paper(command: str, target: Path, example: Path = EXAMPLE) -> Path:
    """Written from beside the example: a worksheet prints the folder as typed, and no test may depend on its length."""
    extra = ["--draft"] if command == "submittal" else []
    with chdir(example.parent):
        run = CliRunner().invoke(app, [command, example.name, "--output", str(target), *extra])
    assert run.exit_code == 0, run.output
    return target
