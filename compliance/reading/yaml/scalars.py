"""What a plain (unquoted) YAML scalar means: fewer guesses than YAML 1.1 makes, and none that changes a value.

As the JSON schema of YAML 1.2.2 (section 10.2) has it, with numbers as JSON itself writes them (RFC 8259, section 6):
`true` and `false` are yes and no; `null`, `~` and nothing are nothing; whole and decimal numbers are numbers. All else
is text: `no`, `on`, `010`, `1_000`, `1:6`, `+5`, `.5`, `2024-05-01`.
"""

from __future__ import annotations

import math
import re

from compliance.refused import RefusedError, shortened

Scalar = str | int | float | bool | None

_WORDS: dict[str, Scalar] = {"": None, "~": None, "null": None, "true": True, "false": False}
_MAY_BE_NUMBER = frozenset("-+.0123456789")
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?P<decimal>\.[0-9]+)?(?P<exponent>[eE][-+]?[0-9]+)?")
_NOT_FINITE = re.compile(r"[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)")
# Every whole number of 15 digits is exact as a float; longer ones are names (a telephone number) more than numbers.
_MOST_DIGITS = 15


def plain_scalar(text: str) -> Scalar:
    """The value of a plain scalar. Raises RefusedError (`yaml-number`) for a number that cannot be kept as written."""
    if text in _WORDS:
        return _WORDS[text]
    if text[0] not in _MAY_BE_NUMBER:
        return text
    match = _NUMBER.fullmatch(text)
    if match is None:
        if _NOT_FINITE.fullmatch(text):
            raise RefusedError(
                "yaml-number", f"{text!r} is not a finite number", "write a number, or leave the line out"
            )
        return text
    if match["decimal"] is None and match["exponent"] is None:
        return _whole(text)
    return _decimal(text, match["exponent"] or "")


def _whole(text: str) -> int:
    if len(text.lstrip("-")) > _MOST_DIGITS:
        raise RefusedError(
            "yaml-number",
            f"{shortened(text)} has more than {_MOST_DIGITS} digits",
            "put it in quotes if it is a name and not a number",
        )
    return int(text)


def _decimal(text: str, exponent: str) -> float:
    value = float(text)
    mantissa = text.removesuffix(exponent)
    lost = value == 0.0 and any(digit in "123456789" for digit in mantissa)
    if not math.isfinite(value) or lost:
        size = "small" if lost else "large"
        raise RefusedError("yaml-number", f"{shortened(text)} is too {size} a number", "check the exponent")
    return value
