"""One question of the interview."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field

from compliance.record import record


@record
class Standing:
    """What stands in the folder already: mixes by mark, each with its name, and whether rule sets are adopted."""

    mixes: tuple[tuple[str, str], ...] = ()
    has_rules: bool = False


NOTHING_THERE = Standing()
Answers = dict[str, str]
"""Answers by the key of their question, in the order they were given; empty for a question passed over."""


@record
class Question:
    """`asks` in plain words; `read` gives the answer to keep or raises RefusedError with what to write instead.

    `choices` are listed with numbers, each with what it is. `default` stands where nothing is typed; without one
    a `required` question is asked again, any other is passed over. `closes`: with this answer something is whole
    and the building so far is looked at.
    """

    key: str
    asks: str
    read: Callable[[str], str]
    example: str = ""
    default: str = ""
    required: bool = False
    choices: tuple[tuple[str, str], ...] = ()
    help: str = ""
    closes: bool = False
    section: str = field(default="")
