"""Naming one more file under `include:` of a project, every other line kept as it is."""

from __future__ import annotations

import re

from compliance.editing.file_entries import EntryError, with_entries
from compliance.reading.yaml.placed import PlacedList
from compliance.reading.yaml.strict_yaml import parse_yaml

_IN_BRACKETS = re.compile(r"^include:[ \t]*\[(?P<names>[^\[\]\r\n]*)\]", re.MULTILINE)


def with_included(text: str, name: str, shown: str) -> str:
    """`text` of a project file with `name` as the last of its included files. Raises ProblemsFound or EntryError."""
    listed = parse_yaml(text, shown).get("include")
    if isinstance(listed, PlacedList) and name in listed:
        return text
    found = _IN_BRACKETS.search(text)
    if found is None:
        return with_entries(text, [[name]], shown, section="include")
    names = found["names"].rstrip().rstrip(",")
    changed = (
        text[: found.start("names")] + (f"{names}, {name}" if names.strip() else name) + text[found.end("names") :]
    )
    if parse_yaml(changed, shown).get("include") != [*(listed or []), name]:
        raise EntryError(f"{shown}: add {name} under include: by hand")
    return changed
