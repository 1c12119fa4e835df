"""The characters and words a formula may hold, before anything reads its grammar.

Only plain ASCII outside quotes, no marks but those of the language, no word of Python but `and or not in`.
What passes is safe to hand to Python's own parser, and a usual slip gets a hint instead of "invalid syntax".
"""

from __future__ import annotations

import keyword
import re

from compliance.rules.formulas.nodes import FormulaError

LONGEST = 500
_TOKEN = re.compile(
    r"(?P<space>[ \n\r\t]+)"
    r"|(?P<number>[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?)"
    r"|(?P<word>[A-Za-z_][A-Za-z0-9_]*)"
    r"|(?P<text>'[^'\\]*'|\"[^\"\\]*\")"
    r"|(?P<mark>\*\*|<=|>=|==|!=|[-+*/<>().,\[\]])"
)
_WORDS = {"and", "or", "not", "in"}
_HINTS = {
    "=": "write == to compare",
    "!": "write not, or != to compare",
    "&": "write and",
    "|": "write or",
    "^": "write ** for a power",
    "%": "write the share as a limit with its % under limits: and use its name here",
    "≤": "write <=",
    "≥": "write >=",
    "≠": "write !=",
    "×": "write *",
    "·": "write *",
    "÷": "write /",
    "−": "write a plain hyphen for minus",
    "²": "write ** 2",
    "³": "write ** 3",
    "√": "write sqrt( )",
    ":": "leave it out; a formula has no colon",
    "{": "write a list in [ ]",
    '"': "close the quote; write no backslash in a text",
    "'": "close the quote; write no backslash in a text",
}
_UNIT = "write the limit with its unit under limits: and use its name here"
_OPENS = {")": "(", "]": "["}


def check_characters(text: str) -> None:
    """Raise FormulaError for the first thing that no formula may hold."""
    if len(text) > LONGEST:
        raise FormulaError(
            "formula-too-long", f"the formula has {len(text)} characters", f"keep it within {LONGEST}", LONGEST
        )
    if not text.strip():
        raise FormulaError("formula-syntax", "the formula is empty", "write for example wall.thickness >= least", 0)
    position, before, last = 0, "", ""
    brackets: list[tuple[str, int]] = []
    while position < len(text):
        match = _TOKEN.match(text, position)
        if not match:
            raise _stray(text, position)
        sort = match.lastgroup or ""
        _check_token(sort, match, before)
        if sort == "mark":
            _follow_brackets(match[0], position, brackets)
        position = match.end()
        if sort != "space":
            before, last = sort, match[0]
    if brackets:
        mark, offset = brackets[-1]
        raise FormulaError("formula-syntax", f"the bracket {mark} is never closed", "close it", offset)
    if last in _WORDS or (before == "mark" and last not in (")", "]", ",")):
        offset = text.rstrip().rindex(last)
        raise FormulaError("formula-syntax", f"the formula ends after {last}", "write what comes after it", offset)


def _stray(text: str, position: int) -> FormulaError:
    stray = text[position]
    shown = stray if stray.isprintable() else f"U+{ord(stray):04X}"
    hint = _HINTS.get(stray, "write plain letters, digits and + - * / ** <= < >= > == != ( ) [ ]")
    return FormulaError("formula-syntax", f"{shown!r} is not part of a formula", hint, position)


def _check_token(sort: str, match: re.Match[str], before: str) -> None:
    token, start, rest = match[0], match.start(), match.string[match.end() :]
    if sort == "word":
        _check_word(token, start, rest)
    if sort == "number":
        _check_number(token, start, rest)
    if sort == "text":
        if before == "text":
            raise FormulaError("formula-syntax", "two texts stand side by side", "put a comma between them", start)
        odd = next((index for index, sign in enumerate(token) if not sign.isprintable()), None)
        if odd is not None:
            raise FormulaError("formula-syntax", "a text holds a sign that cannot be seen", "leave it out", start + odd)


def _check_word(word: str, start: int, rest: str) -> None:
    if rest[:1] in ("'", '"') and word not in _WORDS:
        raise FormulaError("formula-syntax", f"{word!r} stands against a quote", "leave it out", start)
    if word in ("True", "False"):
        raise FormulaError("formula-name", f"{word!r} is not known", f"write {word.lower()}", start)
    if keyword.iskeyword(word) and word not in _WORDS:
        hint = "write == to compare" if word == "is" else "use and, or, not, in, min, max, abs, sqrt and names only"
        raise FormulaError("formula-syntax", f"{word!r} cannot stand in a formula", hint, start)


def _check_number(number: str, start: int, rest: str) -> None:
    follows = re.match(r"[ \n\r\t]*([A-Za-z_%°'\"][A-Za-z0-9_]*)", rest)
    word = follows[1] if follows else ""
    inches = bool(re.match(r"\s+in\s*(?:$|[)<>=!+*/,-]|(?:and|or)\b)", rest))
    if (word and word not in _WORDS) or inches:
        raise FormulaError("formula-unit", f"{number} {word} is a number with a unit", _UNIT, start)
    if word and rest[:1] == word[:1]:
        raise FormulaError("formula-number", f"{number}{word} is not a number", "put a space between them", start)
    if rest[:1] == ".":
        raise FormulaError("formula-number", f"{number}. is not a number", "write for example 0.5 or 12", start)


def _follow_brackets(mark: str, position: int, brackets: list[tuple[str, int]]) -> None:
    if mark in "([":
        brackets.append((mark, position))
    elif mark in ")]":
        if not brackets or brackets[-1][0] != _OPENS[mark]:
            raise FormulaError(
                "formula-syntax", f"nothing opens the bracket {mark}", "take it away or open it", position
            )
        brackets.pop()
