"""What each shipped rule set calls itself, from its first lines."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from compliance.files.shipped import shipped
from compliance.reading.rule_files.rule_library import shipped_rule_sets

_TITLE = re.compile(r"^title:\s*(?P<quote>[\"']?)(?P<title>.*?)(?P=quote)\s*$", re.MULTILINE)
_HEAD = 4000


@cache
def shipped_titles() -> Mapping[str, str]:
    """Titles by the name of the set, empty where its head has none. Raises OSError."""
    return {name: _title_of(shipped("rulesets") / f"{name}.yaml") for name in shipped_rule_sets()}


def _title_of(path: Path) -> str:
    """A whole set takes long to read, and the interview lists every one."""
    with path.open(encoding="utf-8") as file:
        found = _TITLE.search(file.read(_HEAD))
    return found["title"] if found else ""
