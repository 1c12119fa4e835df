"""Where each part of a YAML text begins and ends, to the character: what the values themselves do not remember."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from typing import Any

import yaml

from compliance.record import record

_PARSER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_STARTS = (yaml.MappingStartEvent, yaml.SequenceStartEvent)


@record
class Node:
    """A value from `start` to `end` in the text, offsets without a byte-order mark; `column` is that of its first
    character. `keys` has one node for each value of a mapping and is empty for a list. `is_flow`: in braces or
    brackets. The end of a block is that of its last leaf, for the parser counts the comments after it in."""

    kind: str
    start: int
    end: int
    column: int
    is_flow: bool = False
    style: str = ""
    text: str = ""
    keys: tuple[Node, ...] = ()
    values: tuple[Node, ...] = field(default_factory=tuple)

    @property
    def is_blank(self) -> bool:
        """Whether nothing is written where the value would stand."""
        return self.kind == "scalar" and self.start == self.end

    def index_of(self, part: str | int) -> int | None:
        """The number of the entry that a part of a path leads to."""
        if self.kind == "mapping":
            return next((at for at, key in enumerate(self.keys) if key.text == part), None)
        if self.kind == "list" and isinstance(part, int) and 0 <= part < len(self.values):
            return part
        return None


def nodes_of(text: str) -> Node | None:
    """The outermost value of a text that reads as YAML; None where it holds nothing."""
    events: Iterator[Any] = yaml.parse(text, Loader=_PARSER)
    for event in events:
        if isinstance(event, (yaml.ScalarEvent, *_STARTS)):
            return _node(event, events, text)
    return None


def _end_of(event: Any) -> int:
    return int(event.end_mark.index)


def _node(event: Any, events: Iterator[Any], text: str) -> Node:
    start, column, last = event.start_mark.index, event.start_mark.column, _end_of(event)
    if isinstance(event, yaml.ScalarEvent):
        end = last
        if event.style in ("|", ">"):
            end = start + len(text[start:end].rstrip())
        return Node("scalar", start, end, column, style=event.style or "", text=event.value)
    is_mapping = isinstance(event, yaml.MappingStartEvent)
    parts = []
    for inner in events:
        if isinstance(inner, yaml.MappingEndEvent | yaml.SequenceEndEvent):
            last = _end_of(inner)
            break
        parts.append(_node(inner, events, text))
    is_flow = bool(event.flow_style)
    end = last if is_flow or not parts else parts[-1].end
    keys, values = (parts[::2], parts[1::2]) if is_mapping else ([], parts)
    kind = "mapping" if is_mapping else "list"
    return Node(kind, start, end, column, is_flow=is_flow, keys=tuple(keys), values=tuple(values))
