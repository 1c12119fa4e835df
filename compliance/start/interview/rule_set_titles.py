"""What a rule set calls itself, from its first lines."""

from __future__ import annotations

import re
from pathlib import Path

_TITLE = re.compile(r"^title:\s*(?P<quote>[\"']?)(?P<title>.*?)(?P=quote)\s*$", re.MULTILINE)
_HEAD = 4000


def title_of(path: Path) -> str:
    """The title in the head of a rule-set file; empty where it has none there. A whole set takes long to read, and
    the interview lists every one. Raises OSError."""
    with path.open(encoding="utf-8") as file:
        found = _TITLE.search(file.read(_HEAD))
    return found["title"] if found else ""
