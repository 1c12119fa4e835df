"""Runs the tool as its users do, each time in a process of its own, at the price of one start of Python.

A test that is about the start itself (imports, encodings, closed streams) starts its own process.
"""

from __future__ import annotations

import atexit
import os
import subprocess
from functools import cache
from pathlib import Path

from tests.hostile.running import Host


@cache
def _host(process: int) -> Host:
    """One for each process of the test run; a fork of it starts its own."""
    host = Host()
    atexit.register(host.close)
    return host


def shared_host() -> Host:
    return _host(os.getpid())


def run_tool(*arguments: str | Path, cwd: Path | None = None, **environment: str) -> subprocess.CompletedProcess[str]:
    """What a command prints and its exit code, in this process's environment with `environment` set, 100 columns wide
    unless COLUMNS is among them."""
    command = list(map(str, arguments))
    kept = os.environ | {"COLUMNS": "100"} | environment
    ran = shared_host().run(command, cwd or Path.cwd(), environment=kept)
    return subprocess.CompletedProcess(command, ran.code, ran.out, ran.err)
