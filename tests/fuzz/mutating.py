"""Plain random changes to bytes, for where no coverage-guided fuzzer is installed and for short runs in the tests."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Sequence

_TOKENS = (
    b"0", b"-1", b"1e308", b"1e-308", b"999999999999 ft", b"0.000000000001 in", b"-0 ft", b"0 in", b"nan", b".inf",
    b"no", b"yes", b"null", b"~", b"''", b'"', b"'", b"{", b"}", b"[", b"]", b"&a ", b"*a",
    b"!!python/name:os.system ", b"<<: ", b"? ", b"- ", b": ", b"#", b"%YAML 1.1\n", b"---\n", b"...\n", b"|\n",
    b">\n", b"\t", b"\r\n", b"\x00", b"\xef\xbb\xbf", b"\xff\xfe", b"\xc3\x28", b"\xe2\x80\xa8", b"\xe2\x80\xae",
    b"\x1b[31m", b"<b>", b"&amp;", b"=cmd|' /C calc'!A0", b",", b";", b"1/0 in", b"3,5 MPa", b"12\"", b"8'",
    b"\xc2\xb0", b" % ", b" and ", b" or ", b"not ", b" in [", b"(", b")", b"**", b"sqrt(", b"/ 0", b"<=", b"==",
    b"open", b"..", b"/etc/passwd", b"9" * 16, b"a" * 300,
)  # fmt: skip
_NUMBER = re.compile(rb"[0-9]+")
_WORD = re.compile(rb"[A-Za-z_.-]{2,}")

Change = Callable[[random.Random, bytes, Sequence[bytes]], bytes]


def _cut(dice: random.Random, data: bytes, _: Sequence[bytes]) -> bytes:
    start = dice.randrange(len(data) + 1)
    return data[:start] + data[start + dice.choice((1, 1, 2, 8, 64)) :]


def _put_in(dice: random.Random, data: bytes, _: Sequence[bytes]) -> bytes:
    at = dice.randrange(len(data) + 1)
    return data[:at] + dice.choice(_TOKENS) + data[at:]


def _other_byte(dice: random.Random, data: bytes, _: Sequence[bytes]) -> bytes:
    at = dice.randrange(len(data) + 1)
    return data[:at] + bytes([dice.randrange(256)]) + data[at + 1 :]


def _in_place_of(pattern: re.Pattern[bytes]) -> Change:
    """A number or word changed for a token, or for another of the same input."""

    def change(dice: random.Random, data: bytes, _: Sequence[bytes]) -> bytes:
        found = list(pattern.finditer(data))
        if not found:
            return data
        one = dice.choice(found)
        other = dice.choice((dice.choice(_TOKENS), dice.choice(found)[0]))
        return data[: one.start()] + other + data[one.end() :]

    return change


def _lines(dice: random.Random, data: bytes, _: Sequence[bytes]) -> bytes:
    """A line left out, doubled, moved, or indented otherwise."""
    lines = data.split(b"\n")
    at, to = dice.randrange(len(lines)), dice.randrange(len(lines))
    match dice.randrange(4):
        case 0:
            del lines[at]
        case 1:
            lines.insert(to, lines[at])
        case 2:
            lines.insert(to, lines.pop(at))
        case _:
            lines[at] = b" " * dice.randrange(8) + lines[at].lstrip()
    return b"\n".join(lines)


def _splice(dice: random.Random, data: bytes, seeds: Sequence[bytes]) -> bytes:
    other = dice.choice(seeds)
    start = dice.randrange(len(other) + 1)
    at = dice.randrange(len(data) + 1)
    return data[:at] + other[start : start + dice.randrange(200)] + data[at + dice.randrange(40) :]


CHANGES: tuple[Change, ...] = (
    _cut, _put_in, _other_byte, _in_place_of(_NUMBER), _in_place_of(_NUMBER), _in_place_of(_WORD), _lines, _splice,
)  # fmt: skip


def changed(dice: random.Random, seeds: Sequence[bytes], cases: Sequence[bytes] = ()) -> bytes:
    """A seed, or now and then a hostile case, with one to four changes."""
    data = dice.choice(cases if cases and not dice.randrange(5) else seeds)
    both = [*seeds, *cases]
    for _ in range(dice.choice((1, 1, 1, 2, 2, 3, 4))):
        data = dice.choice(CHANGES)(dice, data, both)
    return data
