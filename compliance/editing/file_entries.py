"""Entries of a YAML file of the project as text, and adding them while all other lines stay as they are."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence

from compliance.reading.yaml.placed import PlacedDict, PlacedList
from compliance.reading.yaml.strict_yaml import parse_yaml

_LINES = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+")


class EntryError(ValueError):
    """Why entries cannot be added to a file; the message says what to do instead."""


def quoted(text: str) -> str:
    """Double-quoted YAML; JSON's escapes are YAML's."""
    return json.dumps(text, ensure_ascii=False)


def value_in_yaml(text: str, kind: str) -> str:
    """A value as YAML. Several words of one limit are written with commas between them, as `A, B, C`."""
    if kind == "words":
        words = [word.strip() for word in text.strip("[]").split(",")]
        return f"[{', '.join(quoted(word) for word in words if word)}]"
    return text if text.replace(".", "", 1).isdigit() else quoted(text)


def line_end_of(text: str) -> str:
    """The line end that a text uses first; LF where it has none."""
    found = re.search(r"\r\n|\r|\n", text)
    return found[0] if found else "\n"


def with_entries(text: str, entries: Sequence[Sequence[str]], shown: str, section: str = "changes") -> str:
    """`text` with entries added at the end of the list of a section, every other line kept to the last byte. Each entry
    is lines without indentation. Raises ProblemsFound or EntryError."""
    end = line_end_of(text)
    lines: list[str] = _LINES.findall(text)
    bare = [line.rstrip("\r\n") for line in lines]
    filled = any(line.strip() and not line.lstrip().startswith("#") for line in bare)
    tree = parse_yaml(text, shown) if filled else None
    changes = tree.get(section) if tree is not None else None
    if changes is None:
        if tree is not None and section in tree:
            raise EntryError(f"{shown}: {section}: is empty; remove the line, it is written anew")
        return _with_new_section(lines, section, _indented(entries, 2, end), end)
    assert tree is not None
    at, indent = _end_of(changes, bare, f"{shown}: {section}:")
    return "".join((*_ended(lines[:at], end), _indented(entries, indent, end), *lines[at:]))


def with_records(text: str, records: Mapping[str, Sequence[str]], shown: str, section: str) -> str:
    """`text` with named records added at the end of a section, every other line kept to the last byte. Each record is
    its fields, without indentation. Raises ProblemsFound or EntryError."""
    end = line_end_of(text)
    lines: list[str] = _LINES.findall(text)
    tree = parse_yaml(text, shown)
    held = tree.get(section)
    if held is None:
        if section in tree:
            raise EntryError(f"{shown}: {section}: is empty; remove the line, it is written anew")
        return _with_new_section(lines, section, _records(records, 2, end), end)
    if not isinstance(held, PlacedDict) or not held:
        raise EntryError(f"{shown}: {section}: holds no named records")
    line, column = held.key_places[list(held)[-1]]
    if lines[line - 1][: column - 1].strip():
        raise EntryError(f"{shown}: {section}: line {line}: write the names one below the other")
    at = _end_of_block([one.rstrip("\r\n") for one in lines], line, column - 1)
    return "".join((*_ended(lines[:at], end), _records(records, column - 1, end), *lines[at:]))


def _with_new_section(lines: Sequence[str], section: str, body: str, end: str) -> str:
    """The section in place of its heading behind `#`, whose blanks stay below it; without one at the end."""
    heading = re.compile(rf"##? {section}:\s*")
    blank = next((index for index, line in enumerate(lines) if heading.fullmatch(line)), None)
    if blank is not None:
        before = "".join(_ended(lines[:blank], end))
        return before + f"{section}:{end}{body}" + "".join(lines[blank + 1 :])
    kept = list(lines)
    while kept and not kept[-1].strip():
        kept.pop()
    return "".join(_ended(kept, end)) + (end if kept else "") + f"{section}:{end}{body}"


def _records(records: Mapping[str, Sequence[str]], indent: int, end: str) -> str:
    blank = " " * indent
    return "".join(
        f"{blank}{mark}:{end}" + "".join(f"{blank}  {field}{end}" for field in fields)
        for mark, fields in records.items()
    )


def _ended(lines: Sequence[str], end: str) -> list[str]:
    """The lines, the last one closed by a line end."""
    return [line if line.endswith(("\r", "\n")) else line + end for line in lines]


def _indented(entries: Sequence[Sequence[str]], indent: int, end: str) -> str:
    blank = " " * indent
    return "".join(
        f"{blank}{'  ' if index else '- '}{line}{end}" for entry in entries for index, line in enumerate(entry)
    )


def _end_of(changes: object, lines: Sequence[str], named: str) -> tuple[int, int]:
    """Index of the line after the last entry of the list, and the column its dashes stand at."""
    if not isinstance(changes, PlacedList) or not changes:
        raise EntryError(f"{named} is no list of entries, each after a dash")
    line, column = changes.item_places[-1]
    start = lines[line - 1]
    indent = len(start) - len(start.lstrip())
    if not start.lstrip().startswith("- ") or column <= indent + 1:
        raise EntryError(f"{named} line {line}: write the entries one below the other, each after a dash")
    return _end_of_block(lines, line, indent), indent


def _end_of_block(lines: Sequence[str], line: int, indent: int) -> int:
    """Index of the line after an entry that begins on `line` (from 1) and at the column `indent`. Comments indented
    deeper belong to it."""
    end = line
    while end < len(lines) and (not lines[end].strip() or len(lines[end]) - len(lines[end].lstrip()) > indent):
        end += 1
    while end > line and not lines[end - 1].strip():
        end -= 1
    return end


def with_section(text: str, name: str, items: Sequence[str]) -> tuple[str, PlacedDict | None]:
    """`text` with a section of one line for each item at its end, and what it then reads as; None where it does not
    read."""
    from compliance.problems import ProblemsFound

    end = line_end_of(text)
    lines: list[str] = _LINES.findall(text)
    while lines and not lines[-1].strip():
        lines.pop()
    added = "".join((*_ended(lines, end), end, f"{name}:{end}", *(f"  - {item}{end}" for item in items)))
    try:
        return added, parse_yaml(added, name)
    except ProblemsFound:
        return added, None
