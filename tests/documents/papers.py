"""The papers that commands write of the example."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from typer.testing import CliRunner

from compliance.cli import app
from tests.conftest import EXAMPLE

COMMANDS = ("brief", "counter", "inspection", "lab-request", "submittal", "worksheet")

Papers = dict[str, tuple[Path, list[Any]]]
"""By command: the file, and the parts it was made of."""


def write_paper(command: str, target: Path) -> Path:
    extra = ["--draft"] if command == "submittal" else []
    run = CliRunner().invoke(app, [command, str(EXAMPLE), "--output", str(target), *extra])
    assert run.exit_code == 0, run.output
    return target
