"""Words for the shell to complete: marks and rules of the folder on the line. Cheap, and silent when in doubt."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import typer

_MOST_BYTES = 2_000_000
_SECTION = re.compile(r"^(\w+):\s*$")
_MARK = re.compile(r"^  ([A-Za-z][A-Za-z0-9_-]{0,23}):")
_OPENING = re.compile(r"^      ([A-Za-z][A-Za-z0-9_-]{0,23}):")
_LISTED = re.compile(r"^\s*-\s*([a-z][a-z0-9-]*)\s*$", re.MULTILINE)
_RULE = re.compile(r"^\s*-?\s*\{?\s*(?:- )?id:\s*([a-z][a-z0-9-]*)", re.MULTILINE)
_CODE = re.compile(r"^([a-z][a-z-]*):", re.MULTILINE)
_NAMED = ("soils", "mixes", "test_sets", "stems", "footings", "beams", "roofs", "walls")


def complete_wall(context: typer.Context, incomplete: str) -> list[str]:
    """Marks of walls."""
    return _beginning(incomplete, (mark for section, mark in _marks(context) if section == "walls"))


def complete_subject(context: typer.Context, incomplete: str) -> list[str]:
    """Marks of anything that rules are about."""
    return _beginning(incomplete, (mark for section, mark in _marks(context) if section in _NAMED))


def complete_rule(context: typer.Context, incomplete: str) -> list[str]:
    """Ids of the rules that the project adopts."""
    return _beginning(incomplete, _rules(context))


def _beginning(incomplete: str, words: Iterator[str]) -> list[str]:
    try:
        return sorted({word for word in words if word.startswith(incomplete)})
    except Exception:  # A shell that completes must not print a trace, whatever the files hold.
        return []


def _texts(context: typer.Context) -> Iterator[str]:
    """The YAML files of the folder on the line, read as plain text."""
    for path in sorted(Path(context.params["folder"]).glob("*.yaml")):
        if path.is_file() and path.stat().st_size <= _MOST_BYTES:
            yield path.read_text(encoding="utf-8", errors="replace")


def _marks(context: typer.Context) -> Iterator[tuple[str, str]]:
    for text in _texts(context):
        section = mark = ""
        for line in text.splitlines():
            if found := _SECTION.match(line):
                section = found[1]
            elif found := _MARK.match(line):
                mark = found[1]
                yield section, mark
            elif section == "walls" and (found := _OPENING.match(line)):
                yield "walls-openings", f"{mark}.{found[1]}"


def _rules(context: typer.Context) -> Iterator[str]:
    from compliance.files.shipped import shipped

    for text in _texts(context):
        yield from _RULE.findall(text)
        for name in _LISTED.findall(text):
            path = shipped("rulesets") / f"{name}.yaml"
            if path.is_file():
                yield from _RULE.findall(path.read_text(encoding="utf-8"))


def complete_code(context: typer.Context, incomplete: str) -> list[str]:
    """Codes of problems."""
    return _beginning(incomplete, _codes())


def _codes() -> Iterator[str]:
    import compliance.problem_pages

    for path in Path(compliance.problem_pages.__file__).parent.glob("*.yaml"):
        yield from _CODE.findall(path.read_text(encoding="utf-8"))
