"""The beginnings of the records of what was issued: what a check needs of them, without reading on."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from compliance.files.safe_paths import inside
from compliance.model.issued import HEAD_NAMES, ISSUED_FOLDER, IssuedHead, head_digest
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.plain_file import read_text
from compliance.refused import RefusedError

_MOST_BYTES = 200_000_000
_BLANK = " \t\r\n"
_DECODER = json.JSONDecoder()


def read_issued_heads(folder: Path) -> tuple[tuple[IssuedHead, ...], list[Problem]]:
    """In the order of issue, with a warning for each record that cannot be read or was changed since."""
    names = sorted(path.name for path in (folder / ISSUED_FOLDER).glob("*.json") if not path.name.startswith("."))
    heads: list[IssuedHead] = []
    warnings: list[Problem] = []
    for name in names:
        shown = f"{ISSUED_FOLDER}/{name}"
        try:
            heads.append(_head(read_text(inside(folder, shown), shown, "yaml", _MOST_BYTES)))
        except (RefusedError, ProblemsFound, ValueError, RecursionError) as error:
            wrong = f"what was issued cannot be compared with the project: {_said(error)}"
            advice = "put back the file as it was, or move it out of the folder"
            warnings.append(Problem(Place(shown), "issued-record", wrong, advice, warning=True))
    return tuple(sorted(heads, key=lambda head: head.issue)), warnings


def _said(error: Exception) -> str:
    if isinstance(error, RefusedError):
        return error.wrong
    if isinstance(error, ProblemsFound):
        return error.problems[0].wrong
    if isinstance(error, ValidationError):
        return "it is no record of what was issued"
    return str(error) if isinstance(error, _ChangedError) else "it cannot be read"


class _ChangedError(ValueError):
    """A record whose beginning is not what its digest is of."""


def _head(text: str) -> IssuedHead:
    data = dict(_beginning(text))
    head = IssuedHead.model_validate(data)
    date.fromisoformat(head.project.date)
    if head.described is not None and head.head_digest != head_digest(data):
        raise _ChangedError("its beginning was changed after it was issued")
    return head


def _beginning(text: str) -> Iterator[tuple[str, Any]]:
    """The names and values that a record begins with. Raises ValueError for what is no JSON."""
    at = _past(text, "{", _next(text, 0))
    while text[at : at + 1] == '"':
        name, at = _DECODER.raw_decode(text, at)
        if name not in HEAD_NAMES:
            return
        value, at = _DECODER.raw_decode(text, _next(text, _past(text, ":", _next(text, at))))
        yield name, value
        at = _next(text, at)
        at = _next(text, at + 1) if text[at : at + 1] == "," else at


def _next(text: str, at: int) -> int:
    while text[at : at + 1] in _BLANK and at < len(text):
        at += 1
    return at


def _past(text: str, sign: str, at: int) -> int:
    if text[at : at + 1] != sign:
        raise ValueError("this is no JSON")
    return _next(text, at + 1)
