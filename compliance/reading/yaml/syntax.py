"""What the YAML parser complains of, in words for the person who wrote the file."""

from __future__ import annotations

from typing import Any

import yaml

from compliance.files.characters import line_and_column
from compliance.problems import Place, Problem

_SYNTAX = "yaml-syntax"
_QUOTES = "put the whole text in quotes"
_INDENT = "check the spaces before this line and the lines above it"
_CLOSE = "close it with the mark it was opened with"
_BACKSLASH = "write the backslash twice, or use single quotes"

# A piece of the parser's message (of libyaml, or of the parser written in Python), what is wrong, what to do instead.
_WORDS: tuple[tuple[str, str, str], ...] = (
    ("mapping values are not allowed", "a colon and a space stand where none can be", f"{_QUOTES}, or {_INDENT}"),
    ("sequence entries are not allowed", "a list item stands where none can be", "begin the list on a line of its own"),
    ("violates ind", "a tab stands where only spaces can be", "indent with spaces"),
    ("tab character where", "a tab stands where only spaces can be", "indent with spaces"),
    ("did not find expected key", "this does not fit the keys around it", f"{_INDENT}, or {_QUOTES}"),
    ("expected <block end>", "this does not fit what stands around it", f"{_INDENT}, or {_QUOTES}"),
    ("expected '-' indicator", "this does not fit the list around it", f"{_INDENT}, or {_QUOTES}"),
    ("',' or ']'", "a list in square brackets is not closed", "part its items with commas and close it with ]"),
    ("',' or '}'", "a mapping in braces is not closed", "part its keys with commas and close it with }"),
    ("unexpected end of stream", "a quotation is not closed", _CLOSE),
    ("unexpected document", "a quotation is not closed", _CLOSE),
    ("expected ':'", "this line has a key without a colon", f"write a colon and a space after the key, or {_QUOTES}"),
    ("escape", "in double quotes a backslash begins an escape, and this is none", _BACKSLASH),
    ("hexdecimal", "this escape wants hexadecimal digits", _BACKSLASH),
    ("<document start>", "this stands after the end of the document", "leave it out, or check the spaces before it"),
    ("comment or", "no text can stand here", f"begin the text on the next line, indented, or {_QUOTES}"),
    ("chomping", "no text can stand here", f"begin the text on the next line, indented, or {_QUOTES}"),
)
_OTHER_CODES: tuple[tuple[str, str, str, str], ...] = (
    ("nesting depth", "yaml-depth", "this is nested far too deeply", "nest it less deeply"),
    ("tag", "yaml-tag", "this tag is not read", "leave it out; put a text that begins with ! in quotes"),
)


class SlowParser(yaml.SafeLoader):
    """The parser written in Python, which lets a ValueError through for an escape beyond the last character."""

    def get_event(self) -> Any:
        try:
            return super().get_event()  # type: ignore[no-untyped-call]
        except ValueError as error:
            raise yaml.MarkedYAMLError(None, None, "unknown escape", self.get_mark()) from error


def syntax_problem(error: yaml.YAMLError, text: str, shown: str) -> Problem:
    """`error` as a problem at the place where reading stopped."""
    if not isinstance(error, yaml.MarkedYAMLError):
        return Problem(Place(shown), _SYNTAX, f"this is not YAML: {' '.join(str(error).split())}")
    message = error.problem or error.context or ""
    mark: Any = error.problem_mark or error.context_mark
    place = _place(mark, text, shown) if mark else Place(shown)
    if "cannot start any token" in message:
        return Problem(place, _SYNTAX, *_bad_start(text, mark))
    for piece, code, wrong, instead in _OTHER_CODES:
        if piece in message:
            return Problem(place, code, wrong, instead)
    for piece, wrong, instead in _WORDS:
        if piece in message:
            return Problem(place, _SYNTAX, wrong + _since(error), instead)
    return Problem(place, _SYNTAX, f"this is not YAML: {message}{_since(error)}", f"{_QUOTES}, or {_INDENT}")


def _place(mark: Any, text: str, shown: str) -> Place:
    """Where the parser stopped; the end of the text where it stopped on a line after the last."""
    ends = line_and_column(text, len(text))
    return Place(shown, *min((mark.line + 1, mark.column + 1), ends))


def _since(error: yaml.MarkedYAMLError) -> str:
    """Where the part that is at fault began, when that is another line."""
    begun: Any = error.context_mark
    met: Any = error.problem_mark
    if begun is None or met is None or begun.line == met.line:
        return ""
    return f"; it began at line {begun.line + 1}, column {begun.column + 1}"


def _bad_start(text: str, mark: Any) -> tuple[str, str]:
    character = text[mark.index : mark.index + 1] if mark else ""
    if character == "\t":
        return "a tab stands where only spaces can be", "indent with spaces"
    return f"a text without quotes cannot begin with {character!r}", _QUOTES
