"""A problem in what the user wrote: where it stands, what is wrong, what to write instead.

Problems are values. Readers collect them, sort them and hand them to the command, which prints all of
them at once and stops; nothing is written while any is left.
"""

from __future__ import annotations

from collections.abc import Iterable

from compliance.record import record


@record
class Place:
    """A place in a file. Line and column count from 1, as editors count; 0 stands for the whole file."""

    file: str
    line: int = 0
    column: int = 0

    def __lt__(self, other: Place) -> bool:
        return (self.file, self.line, self.column) < (other.file, other.line, other.column)

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@record
class Problem:
    """One thing to mend. `code` never changes its meaning once published."""

    place: Place
    code: str
    wrong: str
    instead: str = ""
    warning: bool = False

    def __lt__(self, other: Problem) -> bool:
        """In the order of a file; at one place by code and words."""
        return (self.place, self.code, self.wrong, self.instead) < (other.place, other.code, other.wrong, other.instead)

    def __str__(self) -> str:
        kind = "warning: " if self.warning else ""
        tail = f" ({self.instead})" if self.instead else ""
        return f"{self.place}: {kind}{self.wrong}{tail} [{self.code}]"


class ProblemsFound(Exception):  # noqa: N818 - it carries problems, it is none
    """Raised once by a reader, with every problem it found, sorted by place."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = sorted(set(problems))
        super().__init__("\n".join(map(str, self.problems)))
