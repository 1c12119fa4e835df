"""Whole screens as people see them, a file each in this folder, so that a change of wording is made in one place.

A test that holds a whole screen is marked `kept_text` and calls `assert_kept`. Where a change of wording is meant,

    python -m tests.kept_texts

writes every kept text again and names those that changed. Read the difference before you commit it: the tests then hold
whatever it says.
"""

from __future__ import annotations

import os
from pathlib import Path

FOLDER = Path(__file__).parent
WRITE = "EARTHWALL_WRITE_KEPT_TEXTS"
"""Set by the command above: texts are written, not compared."""


def path_of(name: str) -> Path:
    return FOLDER / f"{name}.txt"


def assert_kept(name: str, text: str) -> None:
    """Fails where `text` is not the kept one, or where none is kept."""
    path = path_of(name)
    if os.environ.get(WRITE):
        path.write_text(text, encoding="utf-8")
    assert path.is_file(), f"no text is kept as {path.name}: python -m tests.kept_texts"
    assert text == path.read_text(encoding="utf-8"), f"not as kept in {path.name}; if meant: python -m tests.kept_texts"
