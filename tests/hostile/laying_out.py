"""Laying a case out as a project folder: what the case holds, and the plain sound rest of a project around it."""

from __future__ import annotations

import re
from pathlib import Path

CASES = Path(__file__).parent / "cases"
_PARTED = re.compile(rb"^=== (.+)\n", re.MULTILINE)

PROJECT = """\
project: {name: Trial, date: 2026-12-30}
jurisdiction: {name: Nowhere, rule_sets: [RULES]}
soils: {S1: {name: clay}}
mixes: {M1: {name: mix, parts: {S1: 1}}, M2: {name: other mix, parts: {S1: 2}}}
test_sets: {C1: {kind: compression, mix: M1}, B1: {kind: rupture, mix: M1}}
walls:
  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in, mix: M1}
"""
SOUND = PROJECT.replace("RULES", "cob-practice")

# For each kind of case: the file the case is, and the project around it ("" where the case is the project itself).
KINDS: dict[str, tuple[str, str]] = {
    "yaml": ("project.yaml", ""),
    "projects": ("project.yaml", ""),
    "tables": ("lab/compression.csv", SOUND),
    "rules": ("rules.yaml", PROJECT.replace("RULES", "rules.yaml")),
    "amendments": ("amendments.yaml", SOUND + "amendments: [amendments.yaml]\n"),
}


def lay_out(kind: str, case: Path, folder: Path) -> None:
    """Writes the case into `folder`. A case may hold further files, each after a line `=== name`."""
    name, around = KINDS[kind]
    first, *more = _PARTED.split(case.read_bytes())
    files = {name: first, **{more[at].decode(): more[at + 1] for at in range(0, len(more), 2)}}
    if around:
        files["project.yaml"] = around.encode()
    write(folder, files)


def write(folder: Path, files: dict[str, bytes]) -> None:
    for name, data in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
