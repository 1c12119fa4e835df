"""What a blank asks for, where the name of its field does not say it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from compliance.facts.common.fact import FieldPath
from compliance.reading.yaml.strict_yaml import read_yaml

_MARKED_UNTIL = ("project", "people", "jurisdiction", "site")
"""Sections of one record, whose fields stand right below them."""
_ELSE = {"walls": "wall_types"}


@cache
def field_hints() -> Mapping[str, str]:
    """By section and field, as "site.ss"; by the names below a mark for what is deeper, as "walls.openings.start"."""
    return {name: str(text) for name, text in read_yaml(Path(__file__).with_name("hints.yaml"), "hints").items()}


def hint_of(path: FieldPath) -> str:
    """Of the field at a path of the project; empty where its name says enough."""
    section, *below = path
    names = [one for one in below if isinstance(one, str)]
    if section not in _MARKED_UNTIL:
        names = names[1:]
    if len(names) > 1:  # every second name of the parts of a wall or a roof is a mark
        names = [names[0], *names[2:]] if names[0] in ("openings", "loads", "beams") else names
    own = ".".join(names)
    hints = field_hints()
    return hints.get(f"{section}.{own}") or hints.get(f"{_ELSE.get(str(section), section)}.{own}", "")
