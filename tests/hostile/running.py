"""Running the tool as its users do, in a process of its own, and reading back what it says."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
MOST_MEMORY = 300_000_000
HARD_TIMEOUT = 120.0

_PROBLEM = re.compile(
    r"^(?P<place>\S.*?)(?::(?P<line>[0-9]+):(?P<column>[0-9]+))?: (?P<wrong>.*) \[(?P<code>[a-z0-9-]+)\]$"
)


@dataclass(frozen=True)
class Ran:
    """What came of one run. `peak` is in bytes, `used` in seconds of processor time; 0 where not measured."""

    code: int
    out: str
    err: str
    peak: int = 0
    used: float = 0.0

    @property
    def problems(self) -> list[str]:
        """Each problem told, as `file:line:column code`, in the order told; warnings left out."""
        found = []
        for line in self.err.splitlines():
            match = _PROBLEM.match(line)
            if match and not match["wrong"].startswith("warning: "):
                at = f":{match['line']}:{match['column']}" if match["line"] else ""
                found.append(f"{match['place']}{at} {match['code']}")
        return found

    @property
    def traced(self) -> bool:
        return "Traceback (most recent call last)" in self.err + self.out


class Host:
    """Many runs at the price of one start; each is still a process of its own, with limits."""

    def __init__(self, **started_with: str) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.hostile.host"],
            cwd=ROOT, env=environment(**started_with), stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip

    def run(
        self,
        args: Sequence[str],
        cwd: Path,
        break_before: int = 0,
        environment: Mapping[str, str] | None = None,
        barred: bool = False,
    ) -> Ran:
        """One run, in the environment of the host unless another is given; with `break_before` = n it is killed before
        its n-th step that changes the disk, with `barred` at its first try to reach the network or start a program."""
        assert self._process.stdin is not None and self._process.stdout is not None
        asked = {"args": list(args), "cwd": str(cwd), "environment": environment and dict(environment)}
        self._process.stdin.write(json.dumps(asked | {"break_before": break_before, "barred": barred}) + "\n")
        self._process.stdin.flush()
        return Ran(**json.loads(self._process.stdout.readline()))

    def close(self) -> None:
        assert self._process.stdin is not None
        self._process.stdin.close()
        self._process.wait(HARD_TIMEOUT)


def environment(**more: str) -> dict[str, str]:
    """The environment of a run: this checkout first, compiled modules kept, nothing of the test run's own."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("PYTEST_", "COV_"))}
    kept.pop("PYTHONDONTWRITEBYTECODE", None)
    return {**kept, "PYTHONPATH": str(ROOT), **more}


def command(*args: str) -> list[str]:
    return [sys.executable, "-m", "compliance", *args]


def run(args: Sequence[str], cwd: Path, env: Mapping[str, str] | None = None) -> Ran:
    """One run from a cold start."""
    done = subprocess.run(
        command(*args), cwd=cwd, env=env or environment(), capture_output=True, timeout=HARD_TIMEOUT, check=False
    )  # fmt: skip
    return Ran(done.returncode, done.stdout.decode("utf-8", "replace"), done.stderr.decode("utf-8", "replace"))


def listing(folder: Path) -> dict[str, bytes | str]:
    """Everything below a folder: bytes of files, targets of links, so that nothing can change unseen."""
    seen: dict[str, bytes | str] = {}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_symlink():
            seen[name] = f"-> {path.readlink()}"
        elif path.is_file():
            seen[name] = path.read_bytes()
        else:
            seen[name] = "folder" if path.is_dir() else "other"
    return seen
