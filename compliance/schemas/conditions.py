"""What the models of rules demand of several fields together, said in JSON Schema, so that an editor tells of it too.

Draft 7, sections 6.5.7 (dependencies), 6.6 (if, then, else) and 6.7 (allOf, anyOf, not). Nothing is refused here that
the models accept; `tests/unit/test_schemas_for_editors.py` holds both against each other.
"""

from __future__ import annotations

import re
from typing import Any

from compliance.units import KINDS, SPELLINGS
from compliance.units.everyday import US_SYMBOLS, WORDS

Schema = dict[str, Any]


def _when(field: str, words: list[str], then: Schema) -> Schema:
    return {"if": {"required": [field], "properties": {field: {"enum": words}}}, "then": then}


def _stated(*fields: str) -> Schema:
    """These are there, and are not left empty."""
    return {"required": [*fields], "properties": {field: {"not": {"enum": [None, ""]}} for field in fields}}


def _without(*fields: str) -> Schema:
    return {"properties": {field: {"type": "null"} for field in fields}}


_CONFIRMED = _when("standing", ["confirmed"], _stated("by", "on"))
_OPEN_IN_BOTH: Schema = {
    "if": {"properties": {"value": {"const": "open"}}},
    "then": {"properties": {"standing": {"const": "open"}, "kind": {"type": "string"}}, "required": ["kind"]},
    "else": {"properties": {"standing": {"not": {"const": "open"}}}},
}
_BLOCKS = ("test", "covers", "attest", "inspect")
_ONE_BLOCK: list[Schema] = [
    {"if": _stated(block), "then": _without(*(other for other in _BLOCKS if other != block))} for block in _BLOCKS
]
_ANSWERED: list[Schema] = [
    {"if": _stated(block), "then": {"allOf": [_without("check"), _stated("standing", "source")]}}
    for block in ("attest", "inspect")
]
_MEASURE = {"$ref": "#/$defs/MeasureOrWord"}
_NO_WORD: Schema = {
    "if": {"not": {"required": ["kind"], "properties": {"kind": {"const": "word"}}}},
    "then": {"properties": {"value": _MEASURE}},
}
CONDITIONS: dict[str, Schema] = {
    "LimitText": {
        "allOf": [
            {"properties": {"kind": {"enum": [None, *KINDS, "word", "words", "yes-no"]}}},
            _when("standing", ["confirmed", "read", "reported"], _stated("source")),
            _CONFIRMED,
            _OPEN_IN_BOTH,
            _NO_WORD,
        ]
    },
    "TableText": {
        "allOf": [
            {"properties": {"kind": {"enum": [*KINDS]}, "cells": {"items": {"items": _MEASURE}}}},
            _CONFIRMED,
        ]
    },
    "ChangeText": {
        "allOf": [
            {"properties": {"value": {"not": {"const": "open"}}, "standing": {"not": {"const": "open"}}}},
            {"if": _stated("column"), "then": _stated("row")},
        ],
    },
    "RuleText": {
        "anyOf": [_stated("check"), _stated("attest"), _stated("inspect")],
        "allOf": [
            *_ONE_BLOCK,
            *_ANSWERED,
            _CONFIRMED,
            {"if": _stated("test"), "then": {"properties": {"about": {"const": "mix"}}}},
            {"if": _stated("covers"), "then": {"properties": {"about": {"const": "wall"}}}},
        ],
    },
}
"""By the name of the model."""


def with_conditions(schema: Schema) -> Schema:
    """The schema of a model with the conditions of the models in it."""
    models = schema.get("$defs", {})
    for name in CONDITIONS.keys() & models.keys():
        models[name] |= CONDITIONS[name]
    if models.keys() & {"LimitText", "TableText"}:
        models["MeasureOrWord"] = {"pattern": measure_pattern()}
    return schema


def measure_pattern() -> str:
    """What a text looks like that is a measure or begins with no digit: a number, and a unit of the list after it."""
    exact = "|".join(sorted({_plain(symbol) for symbol in SPELLINGS}, key=_longest_first))
    loose = "|".join(sorted({_any_case(word) for word in (*US_SYMBOLS, *WORDS)}, key=_longest_first))
    parts = "½¼¾⅛⅜⅝⅞⅓⅔⁄"
    number = rf"[0-9{parts}][0-9 ,./{parts}–-]*"
    feet = rf"{number}(?:[Ff][Tt]|[Ff][Ee][Ee][Tt]|[Ff][Oo][Oo][Tt]|['’′])[^A-Za-z].*"
    return rf"^(?:[^0-9].*|{number}(?:{exact}|{loose}|[”″“])\.?|{feet}|[0-9. /]+(?:[:/]|in) ?12|[0-9. /-]+)$"


def _plain(text: str) -> str:
    """`text` for a regular expression of JavaScript in Unicode mode, which knows no needless backslash."""
    return re.sub(r"([\\^$.*+?()\[\]{}|])", r"\\\1", text)


def _longest_first(text: str) -> tuple[int, str]:
    return -len(text), text


def _any_case(word: str) -> str:
    """`word` in whatever capitals, with the dots and the plural that abbreviations take, and ^ before an exponent."""
    letters = [f"[{one.upper()}{one.lower()}]" if one.isascii() and one.isalpha() else _plain(one) for one in word]
    text = (r"\.?" if word.isalpha() and len(word) == 3 else "").join(letters)
    text = re.sub(r"^\[Ll\]\[Bb\](?=/)", r"(?:[Ll][Bb][Ss]?\\.?|[Pp]ounds)", text)
    text = re.sub(r"^\[Ll\]\[Bb\](?=[^\[]|$)", r"[Ll][Bb][Ss]?\\.?", text).replace("/", " ?/ ?")
    return re.sub(r"(\[Ss\]\[Qq\]|\[Cc\]\[Uu\])(?= )", r"\1\\.?", text).replace("2", "\\^?2").replace("3", "\\^?3")
