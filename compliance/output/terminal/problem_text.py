"""Problems for the terminal: the line at fault with a mark under the place, and what to write instead."""

from __future__ import annotations

import textwrap
import unicodedata
from collections.abc import Callable, Iterable

from compliance.problems import Problem

ReadLines = Callable[[str], list[str] | None]
"""The lines of a file by its name; None where there are none to show."""

_INDENT = "    "
_MOST_SHOWN = 50


def problems_text(problems: Iterable[Problem], width: int, read_lines: ReadLines) -> str:
    """Every problem, those beyond the first fifty on one line each."""
    lines: list[str] = []
    files = _Files(read_lines)
    for number, problem in enumerate(problems):
        lines += problem_lines(problem, width, files) if number < _MOST_SHOWN else [headline(problem)]
    return "\n".join(lines) + "\n"


def problem_lines(problem: Problem, width: int, files: _Files) -> list[str]:
    """Where and what, the line with a mark below it, what to write instead."""
    lines = [headline(problem)]
    place = problem.place
    text = files.line(place.file, place.line) if place.line > 0 else None
    if text is not None and text.strip():
        lines += [_INDENT + part for part in marked(text, place.column, width - len(_INDENT))]
    if problem.instead:
        blank = " " * len(_INDENT)
        lines += textwrap.wrap(problem.instead, width, initial_indent=blank, subsequent_indent=blank)
    return lines


def headline(problem: Problem) -> str:
    kind = "warning: " if problem.warning else ""
    place = str(problem.place if problem.place.line else problem.place.file)
    # The name of a folder may hold anything, also what a terminal obeys.
    place = "".join(char if char.isprintable() else repr(char)[1:-1] for char in place)
    return f"{place}: {kind}{problem.wrong} [{problem.code}]"


def marked(text: str, column: int, width: int) -> tuple[str, str]:
    """The part of a line around a column (from 1), and a line with a mark under it."""
    shown = "".join(_visible(char) for char in text)
    at = min(max(column - 1, 0), len(shown))
    first = max(0, min(at - width // 2, len(shown) - width))
    part = shown[first : first + max(width, 1)]
    return part.rstrip(), " " * sum(map(_columns, shown[first:at])) + "^"


def _visible(char: str) -> str:
    """One character for each: a tab as a blank, what does not print as a box."""
    if char == "\t":
        return " "
    return char if char.isprintable() else "\N{WHITE SQUARE}"


def _columns(char: str) -> int:
    """How many columns of a terminal a character takes."""
    if unicodedata.combining(char):
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1


class _Files:
    """Files read once each, for showing only."""

    def __init__(self, read_lines: ReadLines) -> None:
        self._read_lines = read_lines
        self._read: dict[str, list[str] | None] = {}

    def line(self, file: str, number: int) -> str | None:
        if file not in self._read:
            self._read[file] = self._read_lines(file)
        lines = self._read[file]
        return lines[number - 1] if lines and number <= len(lines) else None
