"""One question of the interview, and what an interview is made of."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from compliance.checked import Checked
from compliance.model.project import Project
from compliance.problems import Problem
from compliance.record import record


@record
class Standing:
    """What stands in the folder already: mixes by mark, each with its name, and the rule sets adopted, with
    commas between them."""

    mixes: tuple[tuple[str, str], ...] = ()
    rule_sets: str = ""

    @property
    def has_rules(self) -> bool:
        return bool(self.rule_sets)


NOTHING_THERE = Standing()
Answers = dict[str, str]
"""Answers by the key of their question, in the order they were given; empty for a question passed over."""


@record
class Question:
    """`asks` in plain words; `read` gives the answer to keep or raises RefusedError with what to write instead.

    `note` says what is known of it already. `choices` are listed with numbers, each with what it is; `sketch` is a
    drawing shown below them. `default` stands
    where nothing is typed; without one a `required` question is asked again, any other is passed over. `closes`: with
    this answer something is whole and the building so far is looked at.
    """

    key: str
    asks: str
    read: Callable[[str], str]
    example: str = ""
    default: str = ""
    required: bool = False
    note: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    sketch: str = ""
    help: str = ""
    closes: bool = False


@record
class TrialReading:
    """What is wrong with the project as a whole, where each answer is right by itself, and the project where nothing
    is; None where it has nothing to read yet."""

    problems: tuple[Problem, ...] = ()
    project: Project | None = None


@record
class Script:
    """What is asked, as the answers so far have it, and what they come to: read as a whole, and checked. `check` gives
    None where the answers make nothing to check yet. `plan` is the plan that was shown last."""

    questions: Callable[[Answers], Iterator[Question]]
    read: Callable[[Answers], TrialReading]
    check: Callable[[Answers], Checked | None]
    plan: str = ""
