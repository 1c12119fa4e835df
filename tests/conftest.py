"""Helps the tests share: a small sound project on disk, built from text."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings

if settings.default is not None and settings.default.deadline is not None:  # No test is about time.
    settings.register_profile("patient", deadline=None)
    settings.load_profile("patient")

ROOT = Path(__file__).parent.parent
EXAMPLE = ROOT / "example_project"

HEAD = """\
project: {name: Trial, date: 2026-01-02}
jurisdiction: {name: Nowhere, rule_sets: [rules.yaml]}
soils: {S1: {name: clay}}
mixes: {M1: {name: mix, parts: {S1: 1}}}
"""

# A rule set up to its rules.
RULE_SET = """\
rule_set: trial
title: Trial rules
edition: "2026"
jurisdiction: nowhere
material: cob
status: practice
scope: trial
source: written for the tests
verify: verify locally
rules:
"""

RULES = (
    RULE_SET
    + """\
  - id: thick-enough
    title: Thickness
    clause: T1
    about: wall
    limits: {least: {value: 10 in, standing: read, source: trial}}
    check: wall.least_thickness >= least
    say: Thick enough.
"""
)

WALLS = """\
walls:
  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in, mix: M1}
"""

Write = Callable[..., Path]


@pytest.fixture
def project(tmp_path: Path) -> Write:
    """Writes a project folder: `project(text_after_head, rules=..., files={name: text})` returns its path."""

    def write(text: str = WALLS, head: str = HEAD, rules: str = RULES, files: dict[str, str] | None = None) -> Path:
        folder = tmp_path / "trial"
        folder.mkdir(exist_ok=True)
        (folder / "project.yaml").write_text(head + text, encoding="utf-8")
        (folder / "rules.yaml").write_text(rules, encoding="utf-8")
        for name, content in (files or {}).items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(content, encoding="utf-8")
        return folder

    return write
