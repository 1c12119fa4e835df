"""Lines of a file at fault, for showing beside a problem."""

from __future__ import annotations

from pathlib import Path

from compliance.files.shipped import shipped
from compliance.problems import ProblemsFound
from compliance.reading.plain_file import read_bytes

_MOST_BYTES = 10_000_000


def read_source_lines(file: str) -> list[str] | None:
    """The lines of a file; None where it is not there or is no text."""
    path = Path(file)
    if not path.exists() and path.parts[:1] == ("rulesets",):
        path = shipped("rulesets").parent / path
    try:
        text = read_bytes(path, file, "shown", _MOST_BYTES).decode("utf-8-sig")
    except (ProblemsFound, UnicodeDecodeError):
        return None
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
