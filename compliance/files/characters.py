"""Characters that no input file may hold, and where they stand.

Refused: control characters other than tab and line ends; line and paragraph separators that editors do not
count as lines; marks that turn the reading direction, since they make a line show other than it is read;
byte-order marks inside the text; surrogates and non-characters.
"""

from __future__ import annotations

import re

from compliance.problems import Place, Problem, ProblemsFound
from compliance.refused import MOST_PROBLEMS

HIDDEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff\ud800-\udfff]"
)
_TURNING = re.compile("[\u202a-\u202e\u2066-\u2069]")


def line_and_column(text: str, offset: int) -> tuple[int, int]:
    """Line and column, from 1, of the character at `offset`; LF, CR LF and CR end a line."""
    before = text[:offset].replace("\r\n", "\n").replace("\r", "\n")
    return before.count("\n") + 1, len(before) - before.rfind("\n")


def checked(text: str, shown: str, prefix: str) -> str:
    """`text` without its byte-order mark. Raises ProblemsFound: `<prefix>-nul`, `<prefix>-control-character`."""
    text = text.removeprefix("\ufeff")
    problems = hidden_character_problems(text, shown, prefix)
    if problems:
        raise ProblemsFound(problems)
    return text


def hidden_character_problems(text: str, shown: str, prefix: str) -> list[Problem]:
    """One problem for each refused character, up to the most that are reported.

    Codes: `<prefix>-nul`, `<prefix>-control-character`.
    """
    problems: list[Problem] = []
    for match in HIDDEN.finditer(text):
        place = Place(shown, *line_and_column(text, match.start()))
        problems.append(hidden_character_problem(match[0], place, prefix))
        if len(problems) >= MOST_PROBLEMS:
            break
    return problems


def hidden_character_problem(character: str, place: Place, prefix: str) -> Problem:
    """The problem with one refused character."""
    if character == "\0":
        return Problem(
            place,
            f"{prefix}-nul",
            "a NUL character stands here",
            "save the file as UTF-8 text; it may be damaged, or be of another kind than its name says",
        )
    code_point = f"U+{ord(character):04X}"
    if _TURNING.match(character):
        wrong = f"the hidden character {code_point} turns the reading direction of the line"
    else:
        wrong = f"the hidden character {code_point} stands here"
    return Problem(place, f"{prefix}-control-character", wrong, "delete it and type the text around it again")
