"""Lines of the check for the terminal: headings, and text broken to the width under a word in front."""

from __future__ import annotations

import textwrap

INDENT = 11


def heading(text: str, width: int) -> list[str]:
    return [text, "-" * min(len(text), width)]


def hung(text: str, width: int, first: int, rest: int) -> list[str]:
    """Lines of at most `width`, indented by `first` and `rest`; ids of rules are not broken at their hyphens."""
    return textwrap.wrap(text, width, initial_indent=" " * first, subsequent_indent=" " * rest, break_on_hyphens=False)


def headed(text: str, width: int) -> list[str]:
    return hung(text, width, 2, INDENT)


def wrapped(text: str, width: int) -> list[str]:
    return hung(text, width, INDENT, INDENT)
